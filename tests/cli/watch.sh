# needs clench
# A transducer over Modbus into the log: a small device of the test's own, which is silent at first, then answers, with
# one wild value; what is wrong in a map. Times and hashes are masked.
mask() { sed -E 's/20[0-9]{2}-[0-9]{2}-[0-9]{2}T[0-9:.]+Z/TIME/;s/127.0.0.1:[0-9]+/DEVICE/;s/answer: [^;]*/answer: WHY/'; }
cp "$ROOT/examples/single-span.yaml" b.yaml
clench site open b.yaml --points "gap -10 ft, gap 10 ft" | head -n 1
cat >device.py <<'PYEOF'
import socket, struct, sys, time
# unit 1, holding registers: a pressure (float, low word first), two rules (0.01 mm), wild the third time
listening = socket.create_server(("127.0.0.1", 0))
open("port", "w").write(str(listening.getsockname()[1]))
def registers(asked):
    wild = 30000 if asked == 3 else 0
    low, high = struct.unpack(">HH", struct.pack(">f", 0.25))[::-1]
    return [low, high, 0, 1, wild]
rounds = 0
while True:
    line, _ = listening.accept()
    rounds += 1
    if rounds == 1:  # hangs up at once: not there yet
        line.close()
        continue
    asked = 0
    while True:
        head = line.recv(12)
        if len(head) < 12:
            break
        number, _, _, unit, function, address, count = struct.unpack(">HHHBBHH", head)
        asked += address == 0
        words = registers(asked)[address:address + count]
        body = struct.pack(">BB", function, 2 * count) + struct.pack(f">{count}H", *words)
        line.sendall(struct.pack(">HHHB", number, 0, len(body) + 1, unit) + body)
PYEOF
/usr/bin/python3 device.py &
device=$!
waited=0
while [ ! -s port ] && [ "$waited" -lt 100 ]; do
    sleep 0.1
    waited=$((waited + 1))
done
cat >map.yaml <<'END'
every: 1 s
pressure 1: {register: 0, type: float, words: little, unit: psi}
move 1: {register: 2, type: int16, scale: 0.01, unit: mm, most: 6 in}
move 2: {register: 4, type: int16, scale: 0.01, unit: mm, most: 6 in}
END
line=tcp:127.0.0.1:$(cat port)
clench site watch b.yaml --modbus "$line" --map map.yaml --step 0 --who ab --times 3 >said 2>&1
echo "exit status $?"
mask <said
clench site export b.yaml | cut -d, -f8-11,15-17 | sed 's/, *$//'
clench site verify b.yaml | sed 's/, last.*//'
echo "-- ends by Ctrl-C"
clench site watch b.yaml --modbus "$line" --map map.yaml --step 0 >said 2>&1 &
watch=$!
waited=0
while ! grep -q '^record' said && [ "$waited" -lt 100 ]; do
    sleep 0.1
    waited=$((waited + 1))
done
kill -INT "$watch"
wait "$watch"
echo "exit status $?"
tail -n 1 said | sed 's/^[0-9]*/N/'
kill "$device"
echo "-- refused"
clench site watch b.yaml --modbus "$line"
clench site watch b.yaml --modbus here --map map.yaml --step 0
clench site watch b.yaml --modbus "$line" --map map.yaml --times 0
printf 'pressure 1: {register: 0, type: float, unit: psi}\nmove 9: {register: 1, type: int16, unit: mm}\nevery: 1 ms\n' >map.yaml
clench site watch b.yaml --modbus "$line" --map map.yaml
echo "exit status $?"
