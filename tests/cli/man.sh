# tools/make-man makes a page without complaint from a program's own help, awkward lines included.
cat >program <<'END'
#!/bin/sh
if [ $# -eq 2 ]; then
    printf 'clench %s FILE [--html FILE]\n\n.starts with a point\n'"'"'and a quote, a back\\slash\n' "$2"
else
    printf 'usage: clench COMMAND ...\n\n  thrust FILE   the thrust that keeps every joint closed\n  help          this\n'
fi
END
chmod +x program
SOURCE_DATE_EPOCH=1000000000 "$ROOT/tools/make-man" ./program 1.2.3 >clench.1
mandoc -Tlint -Wwarning clench.1 && echo clean
mandoc -Tutf8 -Owidth=78 clench.1 | sed 's/.\x08//g'
