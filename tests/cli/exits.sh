# needs clench
# Each exit status once through the program: 0 done, 1 not met, 2 input, 3 mathematics, 4 machine.
tub=$ROOT/examples/single-tub.yaml
clench thrust "$tub" >answer.txt
echo "exit $?"
clench thrust "$ROOT/examples/made-continuous.yaml" >answer.txt
echo "exit $?"
clench thrust "$tub" --thrust "10 kip" >answer.txt
echo "exit $?"
rm answer.txt
echo '-- 2: refused by its structure, with place and reason'
clench thrust "$ROOT/examples/refused/untied-run.yaml" --html out.html
echo "exit $?"
echo '-- 3: a bearing that holds next to nothing is no error of the file, but the structure floats'
{ cat "$tub"; printf 'supports:\n  - {kind: fixed bearing, stiffness: 1e-9 kip/in}\n  - kind: free bearing\n'; } >loose.yaml
clench thrust loose.yaml --html out.html
echo "exit $?"
echo '-- 4: a file that is not there, a page that cannot be written, a full screen'
clench thrust missing.yaml
echo "exit $?"
clench thrust "$tub" --html no/such/folder/out.html
echo "exit $?"
clench thrust "$tub" >/dev/full
echo "exit $?"
ls
