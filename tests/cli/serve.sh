# needs clench
# The page of a file from the command line: its address, its files, answers as the command gives them, and
# its end. ("clench help serve" is in help.sh.)
cp "$ROOT/examples/single-tub.yaml" deck.yaml
start() {
    : >said # the shell opens it for the server at some time of its own
    clench serve deck.yaml --no-browser >>said &
    server=$!
    waited=0
    while [ "$(wc -l <said)" -lt 2 ] && [ "$waited" -lt 100 ]; do
        sleep 0.1
        waited=$((waited + 1))
    done
}
start
sed 's/:[0-9]*\/$/:PORT\//' said
address=$(head -n 1 said)
cat >ask.py <<'PYEOF'
import gzip, re, sys, urllib.error, urllib.request
address = sys.argv[1]
def ask(path, body=None, **fields):
    fields = {name.replace("_", "-"): value for name, value in fields.items()}
    request = urllib.request.Request(address + path, body, fields)
    try:
        with urllib.request.urlopen(request, timeout=60) as reply:
            return reply.status, reply.read(), reply.headers
    except urllib.error.HTTPError as error:
        return error.code, error.read(), error.headers
status, page, head = ask("")
print("/", status, head["Content-Type"])
named = sorted(set(re.findall(r'(?:src|href)="/?([a-z.]+)"', page.decode())))
for name in sorted({"app.js", "worker.js", "app.css", "clench.wasm", *named}):
    status, plain, head = ask(name)
    packed = ask(name, Accept_Encoding="gzip")
    small = ask(name, Accept_Encoding="gzip, br")
    known = ask(name, If_None_Match=head["ETag"] or "")
    print(f"/{name}", status, head["Content-Type"], "whole" if len(plain) > 100 else "short",
          "same unpacked" if packed[2]["Content-Encoding"] is None or gzip.decompress(packed[1]) == plain else "differs",
          "smallest by br" if small[2]["Content-Encoding"] != "br" or len(small[1]) < len(packed[1]) else "larger by br",
          "known", known[0])
total = sum(len(ask(name, Accept_Encoding="gzip, br")[1])
            for name in ("", "app.js", "worker.js", "app.css", "clench.wasm", "picture.css"))
print("page below 300 kB" if total < 300000 else f"page has {total} bytes")
for what in "answer", "checks":
    open(f"{what}.json", "wb").write(ask(f"api/{what}", open("deck.yaml", "rb").read())[1])
PYEOF
/usr/bin/python3 ask.py "$address"
clench thrust deck.yaml --json >command.json
cmp answer.json command.json && echo "the same answer"
clench checks deck.yaml --json >command.json
cmp checks.json command.json && echo "the same checks"
echo "-- the port is taken"
port=${address##*:}
clench serve deck.yaml --port "${port%/}" 2>&1 | sed 's/port [0-9]*/port PORT/'
echo "-- ends"
kill -INT "$server"
wait "$server"
echo "exit $?"
start
kill -TERM "$server"
wait "$server"
echo "exit $?"
ls
for words in "--port 70000" "--port x" "--port=-1" "-" "a b"; do
    # shellcheck disable=SC2086  # words
    clench serve $words
    echo "exit $?"
done
