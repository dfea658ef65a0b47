# needs clench
# The man page made of the program's own help is clean and names every command and option.
SOURCE_DATE_EPOCH=1000000000 "$ROOT/tools/make-man" clench 1.2.3 >clench.1 2>err ||
    SOURCE_DATE_EPOCH=1000000000 "$ROOT/tools/make-man" "$(command -v clench)" 1.2.3 >clench.1
mandoc -Tlint -Wwarning clench.1 && echo clean
mandoc -Tutf8 clench.1 | sed 's/.\x08//g' >page
sed -n 's/^    {"\([a-z]*\)", cmd_.*/\1/p' "$ROOT/src/cli/main.c" | while read -r name; do
    grep -q "clench $name" page && echo "$name"
done
sed -n 's/^    X([A-Z_]*, *"\(--[a-z-]*\)".*/\1/p' "$ROOT/src/cli/cli.h" | while read -r option; do
    grep -q -e "$option" page && echo "$option"
done
