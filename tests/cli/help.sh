# needs clench
# Help, version, and what is said to words that are not known.
clench help
for name in thrust life schema serve; do
    echo
    clench help "$name"
done
echo
clench --version | sed 's/[0-9.]*$/VERSION/'
for words in "thurst x" "thrust" "thrust x --jsn" "thrust x --html" "thrust x y" "schema x" \
    "thrust x --units imperial" "life x --units=SI --units=US"; do
    # shellcheck disable=SC2086  # words
    clench $words
    echo "exit $?"
done
clench thrust x --thrust 2800
echo "exit $?"
clench thrust x --thrust "-5 kip"
echo "exit $?"
clench 2>&1 | head -n 1
