# needs clench
# The same run twice gives the same bytes, and a given thrust is judged.
file=$ROOT/examples/single-tub.yaml
clench thrust "$file" --html a.html >a.txt
clench thrust "$file" --html b.html >b.txt
cmp a.html b.html && cmp a.txt b.txt && echo same
clench thrust "$file" --thrust "100 kip" >low.txt
echo "exit $?"
grep -o 'The given thrust of [0-9]* kip does not lie in the window' low.txt
clench thrust "$file" --units SI | grep -q ' kN ' && echo 'in kN'
clench thrust - <"$file" >c.txt
grep -c 'keep every joint closed' c.txt
