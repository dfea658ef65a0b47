# tools/need installs what is missing and nothing else; tried with a made-up package system.
mkdir bin
for tool in sh grep head tr cat tail mkdir dirname; do ln -s "$(command -v $tool)" bin/$tool; done
cat >bin/dpkg-query <<'END'
#!/bin/sh
for name; do :; done
case $name in *Provides*) echo "installed, part-of-here (= 1), other," ;; here | old) echo installed ;; removed) echo config-files ;; *) exit 1 ;; esac
END
cat >bin/apt-get <<'END'
#!/bin/sh
echo "apt-get $*" >>"$CALLS"
case "$*" in *broken*) echo "E: no such thing"; exit 100 ;; esac
END
printf '#!/bin/sh\necho $USER_ID\n' >bin/id
chmod +x bin/*
export CALLS="$PWD/calls"
need() {
    echo "== $*"
    : >calls
    PATH="$PWD/bin" "$ROOT/tools/need" "$@"
    echo "exit $?"
    cat calls
}
export USER_ID=0
need here 'new|old'
need here absent removed 'absent-too|neither'
need part-of-here other
need part-of
need broken
export USER_ID=1000
need here
need absent
printf '#!/bin/sh\necho "sudo $*" >>"$CALLS"\n' >bin/sudo
chmod +x bin/sudo
need absent
rm bin/dpkg-query
need absent
CLENCH_NEED=skip
export CLENCH_NEED
need absent
