# needs clench
# All errors of a file in one run, with place and cure; nothing is written.
cat >bad.yaml <<'END'
title: wrong in many ways
spans:
  - length: 94
girders: {count: 5, spacing: 8 lb, kind: pretensioned, shape: BT-54}
dek: {thickness: 8.5 in}
END
clench thrust bad.yaml --html out.html --json
echo "exit $?"
printf 'title: [unclosed\n' >syntax.yaml
clench thrust syntax.yaml
echo "exit $?"
clench life missing.yaml
echo "exit $?"
clench thrust .
echo "exit $?"
clench thrust "$ROOT/examples/single-tub.yaml" --html no/such/folder/out.html
echo "exit $?"
clench life "$ROOT/examples/single-tub.yaml" --joint J99
echo "exit $?"
ls
