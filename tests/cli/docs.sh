# needs clench
# What the documents show is what the program prints.
for file in README.md docs/first-bridge.md; do
    CLENCH=$(command -v clench) "$ROOT/tools/replay-doc" "$ROOT/$file" || echo "then: tools/replay-doc --rewrite $file"
done
# every link of a document leads to a file
cd "$ROOT" || exit 1
for file in *.md docs/*.md docs/theory/*.md; do
    grep -o '](\([^)#]*\)' "$file" | sed 's/^](//' | grep -v '^http' | grep . | while read -r link; do
        [ -e "$(dirname "$file")/$link" ] || echo "$file: no $link"
    done
done
