"""What the tests of the served site log share: a server with a bridge file in a folder, and how to ask it."""
import http.client, json, os, resource, signal, socket, ssl, subprocess, sys

root = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
program = os.path.abspath(os.environ.get("CLENCH") or os.path.join(root, "build/check/src/cli/clench"))
failures, checked = [], 0
READER, WRITER = "r" * 40, "w" * 40


def check(good, words):
    global checked
    checked += 1
    if not good:
        failures.append(words)
    return good


def end():
    """The last words of a test."""
    for failure in failures[:20]:
        print("FAILED:", failure)
    print(f"{checked - len(failures)} passed, {len(failures)} failed")
    sys.exit(bool(failures))


def free_port():
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


def folder_fill(folder, bridge="single-span.yaml"):
    with open(os.path.join(root, "examples", bridge), encoding="utf-8") as source:
        text = source.read()
    with open(os.path.join(folder, "b.yaml"), "w", encoding="utf-8") as out:
        out.write(text)


def secrets_make(folder):
    """A certificate that signs itself, its key, and tokens."""
    subprocess.run(["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes",
                    "-keyout", "key.pem", "-out", "cert.pem", "-days", "2", "-subj", "/CN=site.example", "-addext",
                    "subjectAltName=DNS:site.example,IP:127.0.0.1"], cwd=folder, check=True, capture_output=True)
    with open(os.path.join(folder, "tokens"), "w", encoding="utf-8") as out:
        out.write(f"reader {READER}\nwriter {WRITER}  # at the pump\n")
    for name in "key.pem", "tokens":
        os.chmod(os.path.join(folder, name), 0o600)


class Server:
    def __init__(self, folder, *options, far=False, file_max=None):
        self.folder, self.far, self.port, self.context = folder, far, free_port(), None
        words = [program, "serve", "b.yaml", "--no-browser", "--port", str(self.port), *options]
        if far:
            words += ["--listen", "127.0.0.1", "--certificate", "cert.pem", "--key", "key.pem", "--tokens", "tokens"]
            self.context = ssl.create_default_context(cafile=os.path.join(folder, "cert.pem"))
        limit = (lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (file_max, file_max))) if file_max else None
        self.child = subprocess.Popen(words, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                                      preexec_fn=limit)
        self.address = self.child.stdout.readline().strip()
        if not self.address:
            sys.exit("no server: " + self.child.stderr.read() + "\n0 passed, 1 failed")
        self.child.stdout.readline()

    def connect(self, source=None, timeout=60):
        raw = socket.create_connection(("127.0.0.1", self.port), timeout, (source, 0) if source else None)
        return self.context.wrap_socket(raw, server_hostname="127.0.0.1") if self.context else raw

    def ask(self, method, path, body=None, token=None, source=None, **fields):
        """(status, object or text, head)"""
        head = {name.replace("_", "-"): value for name, value in fields.items()}
        if token:
            head["Authorization"] = "Bearer " + token
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        connection.sock = self.connect(source)
        connection.request(method, path, json.dumps(body) if isinstance(body, dict) else body, head)
        reply = connection.getresponse()
        said = reply.read()
        connection.close()
        if reply.headers["Content-Type"] == "application/json":
            return reply.status, json.loads(said), reply.headers
        return reply.status, said.decode("utf-8", "replace"), reply.headers

    def alive(self):
        return self.child.poll() is None

    def memory_kB(self):
        with open(f"/proc/{self.child.pid}/status", encoding="utf-8") as about:
            return int(next(line for line in about if line.startswith("VmRSS")).split()[1])

    def kill(self):
        self.child.kill()
        self.child.communicate()

    def stop(self):
        self.child.send_signal(signal.SIGTERM)
        self.child.communicate(timeout=60)
        return self.child.returncode


def reading(id, **words):
    return {"id": id, "time": "2031-05-04T09:00:00Z", "step": "0", "pressure 1": "0 psi", "move 1": "0 in", **words}


def clench(folder, *words):
    return subprocess.run([program, *words], cwd=folder, capture_output=True, text=True)


def ids(folder):
    done = clench(folder, "site", "export", "b.yaml", "--json")
    check(done.returncode == 0, "export: " + done.stderr)
    return [r["id"] for r in json.loads(done.stdout)["readings"]] if done.returncode == 0 else []


def chain_check(folder):
    done = clench(folder, "site", "verify", "b.yaml")
    check(done.returncode == 0, "verify: " + done.stdout + done.stderr)
