# needs clench
# The package as PDF: its text can be searched, every chapter is there, each page is numbered, the same
# input gives the same bytes, the date is the one given; refusals write nothing.
clench report "$ROOT/examples/causeway.yaml" -o a.pdf --date 2031-05-04
echo "status $?"
SOURCE_DATE_EPOCH=1935619200 clench report "$ROOT/examples/causeway.yaml" -o b.pdf
cmp a.pdf b.pdf && echo "same bytes"
pdftotext -layout a.pdf a.txt
pages=$(pdfinfo a.pdf | sed -n 's/^Pages: *//p')
grep -c "page [0-9]* of $pages\$" a.txt | sed "s/^$pages\$/every page is numbered/"
grep -q "revision $(sha256sum "$ROOT/examples/causeway.yaml" | cut -c1-12)" a.txt && echo "revision"
pdfinfo a.pdf | grep -E '^(Title|Page size)'
pdfinfo -isodates a.pdf | grep CreationDate
sed -n '/^ *Contents/,/\f/p' a.txt | sed -n 's/^ *\([0-9][0-9]*  *[A-Z].*[a-z]\) .*/\1/p' | tr -s ' '
grep -c '[0-9] = [0-9]' a.txt >/dev/null && echo "formulas as text"
cat >heads.py <<'END'
# No page ends with the head of a table, and none is empty.
heads = ("moment ", "joint ", "rule ", "limit ", "no. ", "value ", "input ", "day ", "material ")
pages = open("a.txt", encoding="utf-8").read().split("\f")[:-1]
for number, page in enumerate(pages, 1):
    lines = [line for line in page.splitlines() if line.strip()]
    if len(lines) < 4:
        print("empty page", number)
    elif lines[-2].lstrip().startswith(heads) and "[" in lines[-2]:
        print("lonely head on page", number, lines[-2])
# The page that the contents name is the one on which the chapter starts.
import re
contents = [p for p in pages if re.search(r"^ *Contents", p, re.M)][0]
for number, title, page in re.findall(r"^ *(\d+) +(\S.*?) {3,}(\d+)$", contents, re.M):
    if not re.search(rf"^ *{number} +{re.escape(title)}$", pages[int(page) - 1], re.M):
        print("chapter", number, title, "does not start on page", page)
print(len(re.findall(r"^ *\d+ +\S.*? {3,}\d+$", contents, re.M)), "chapters found where they should be")
END
/usr/bin/python3 heads.py
grep -o 'nan\|(null)\|-inf\|The working ends here' a.txt | sort -u
clench report "$ROOT/examples/two-span-metric.yaml" -o m.pdf --html m.html
sed -e '1d' -e 's/<meta \([^>]*\)>/<meta \1\/>/' m.html | xmllint --noout - && echo "page well formed"
grep -c '<mfrac>' m.html >/dev/null && echo "formulas in MathML"
pdfinfo m.pdf | grep '^Page size'
pdftotext -layout m.pdf m.txt
grep -o 'nan\|(null)\|-inf\|The working ends here' m.txt | sort -u
clench report "$ROOT/examples/causeway.yaml"; echo "status $?"
clench report "$ROOT/examples/causeway.yaml" -o c.pdf --date 4.5.2031; echo "status $?"
clench report missing.yaml -o c.pdf; echo "status $?"
clench report "$ROOT/examples/causeway.yaml" -o nowhere/c.pdf; echo "status $?"
cp "$ROOT/examples/causeway.yaml" own.yaml
clench report own.yaml -o own.yaml; echo "status $?"
ls ./*.pdf ./*.yaml
