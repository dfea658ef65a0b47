/* The looks of the page: a drawing sheet, ink on paper, two inks for the two sides of every limit.
 * Blue and orange stay apart for every common colour blindness; dashes and numbers say it again. */
#include "document.h"

const char document_style[] =
    "*{box-sizing:border-box}\n"
    "html{-webkit-text-size-adjust:100%}\n"
    "body{margin:0 auto;max-width:59rem;padding:20px 16px 48px;background:var(--paper);"
    "color:var(--ink);font:1rem/1.5 system-ui,sans-serif}\n"
    "h1,h2,h3{font-family:Georgia,'Times New Roman',serif;font-weight:600;line-height:1.25}\n"
    "h1{font-size:1.7rem;margin:0 0 12px}\n"
    "h2{font-size:1.25rem;margin:40px 0 12px;padding-top:10px;border-top:2px solid var(--ink)}\n"
    "h3{font-size:1.05rem;margin:0 0 10px}\n"
    "p{max-width:72ch}\n"
    ".lead{font-size:1.25rem;line-height:1.4;border-left:4px solid var(--need);padding:2px 0 2px "
    "14px;margin:22px 0 16px}\n"
    ".caution{border:1px solid var(--most);padding:8px 12px;margin:16px 0 26px;max-width:none}\n"
    ".block{display:grid;grid-template-columns:repeat(auto-fit,minmax(9.5rem,1fr));gap:1px;"
    "margin:0;border:1px solid var(--ink);background:var(--line)}\n"
    ".block div{padding:5px 10px;background:var(--paper)}\n"
    ".block dt{font-size:.8rem;color:var(--soft)}\n"
    ".block dd{margin:0;overflow-wrap:anywhere}\n"
    ".facts{margin:0}\n"
    ".facts div{display:grid;grid-template-columns:6.5rem 1fr;gap:0 12px;padding:4px 0;"
    "border-bottom:1px solid var(--line)}\n"
    ".facts dt{color:var(--soft)}.facts dd{margin:0;max-width:68ch}\n"
    ".wide{overflow-x:auto;margin:18px 0}\n"
    ".wide:focus-visible,summary:focus-visible{outline:3px solid var(--need);outline-offset:2px}\n"
    "table{border-collapse:collapse;font-size:.9rem;min-width:100%}\n"
    "caption{text-align:left;font-weight:600;padding:0 0 6px;position:sticky;left:0}\n"
    "th,td{text-align:left;vertical-align:top;padding:4px 14px 4px 0;border-bottom:1px solid "
    "var(--line)}\n"
    "thead th{border-bottom:1.5px solid var(--ink);vertical-align:bottom}\n"
    "tbody th{font-weight:400;min-width:9rem}td:not(.n):not(.s){min-width:8rem}\n"
    "tbody th.part{padding-left:16px;color:var(--soft)}\n"
    ".n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}\n"
    ".s{white-space:nowrap}\n"
    "thead .n{white-space:normal}\n"
    "figure{margin:28px 0 36px}\n"
    "figcaption{max-width:76ch;color:var(--soft);font-size:.9rem;margin-top:6px}\n"
    "svg{display:block;width:100%;height:auto}\n"
    ".sheet svg{max-width:54rem}\n"
    ".phone svg{max-width:31rem}\n"
    ".phone{display:none}\n"
    "@media (max-width:719px){.sheet{display:none}.phone{display:block}body{padding:14px 10px "
    "40px}}\n"
    "details{margin:8px 0}\n"
    "summary{cursor:pointer;color:var(--need);padding:4px 0}\n"
    "li{max-width:76ch;margin:4px 0}\n"
    "@media (max-width:479px){.facts div{display:block}}\n"
    /* a wall or a very wide desk: letters grow with it */
    "@media (min-width:2200px){html{font-size:22px}}@media "
    "(min-width:3200px){html{font-size:30px}}\n"
    "@media print{html{font-size:14px}body{max-width:none;padding:0}figure,tr,.caution,.facts div"
    "{break-inside:avoid}h2,h3,caption,thead{break-after:avoid}h2{margin-top:24px}"
    "figure{margin:14px 0 18px}figure details{display:none}"
    ".paper::details-content{content-visibility:visible;height:auto;display:block}"
    ".paper table{font-size:.72rem}.paper th,.paper td{padding:1px 10px 1px 0}.paper "
    "summary{display:none}.wide{overflow:visible}td:not(.n):not(.s){min-width:0}"
    "tbody th{min-width:6rem}}\n";

#define LIGHT                                                                                    \
    "--paper:#fbfaf5;--ink:#1d2730;--soft:#4d5a64;--line:#d3d2c8;--need:#0b5c8f;--most:#a8480a;" \
    "--deck:#b9c6cf;--anchor:#53636f;--fill:#e3b26b;--steel:#e4e3da;--band:#cfe0ea;"             \
    "--window:#d5e8da;--clash:#f6d6c4;--gain:#2f7d4f;"                                           \
    "--m1:#1d2730;--m2:#7a5195;--m3:#0b7a75;--m4:#0b5c8f;"                                       \
    "--h0:#f0f5f8;--h1:#e2edf3;--h2:#d2e3ed;--h3:#c0d8e6;--h4:#abcbde;--h5:#94bcd4;"             \
    "--h6:#7aabc9;--h7:#5f98bb;--h8:#4584ab;--h9:#2f6f99;--h10:#e07b28"
#define DARK                                                                                     \
    "--paper:#14191d;--ink:#e6e9ea;--soft:#a9b4bb;--line:#3a444b;--need:#7dbfe8;--most:#f0a469;" \
    "--deck:#4b5b66;--anchor:#9fb0bc;--fill:#b98436;--steel:#2a3238;--band:#203a4a;"             \
    "--window:#1f3a2a;--clash:#4a2a1a;--gain:#79c796;"                                           \
    "--m1:#e6e9ea;--m2:#c9a3e2;--m3:#5cc9c2;--m4:#7dbfe8;"                                       \
    "--h0:#182127;--h1:#1a2a33;--h2:#1d3440;--h3:#203f4f;--h4:#244b60;--h5:#295873;"             \
    "--h6:#306788;--h7:#3a789d;--h8:#498bb2;--h9:#5d9fc6;--h10:#c9661a"

const char document_svg_style[] =
    ":root{color-scheme:light dark;" LIGHT "}\n"
    "@media (prefers-color-scheme:dark){:root{" DARK "}}\n"
    "@media print{:root{" LIGHT ";--paper:#fff}}\n"
    "svg text{font:13px system-ui,sans-serif;fill:var(--ink)}\n"
    "svg text.small{font-size:11px}svg text.large{font-size:16px}\n"
    "svg text.label,svg text.note{fill:var(--soft)}svg text.strong{font-weight:600}\n"
    "svg text.strong,svg text.governs,svg text.note{paint-order:stroke;stroke:var(--paper);"
    "stroke-width:3px;stroke-linejoin:round}\n"
    "svg text.governs{fill:var(--most);font-weight:700}\n"
    "svg text.heattext{paint-order:stroke;stroke:var(--paper);stroke-width:3px;"
    "stroke-linejoin:round;font-variant-numeric:tabular-nums}\n"
    "svg polyline{fill:none;stroke-linejoin:round}\n"
    ".axis{stroke:var(--ink);stroke-width:1.2}.grid{stroke:var(--line);stroke-width:1}\n"
    ".girder{fill:var(--steel);stroke:var(--soft)}polygon.support{fill:var(--soft)}\n"
    ".panel{fill:var(--deck);stroke:var(--paper);stroke-width:1}\n"
    ".anchor{fill:var(--anchor);stroke:var(--paper)}\n"
    ".closure{fill:var(--fill);stroke:var(--paper)}\n"
    ".placed{fill:none;stroke:var(--soft);stroke-dasharray:3 2}\n"
    ".tie{stroke:var(--ink);stroke-width:1.5}.joint{stroke:var(--soft);stroke-width:1}\n"
    ".open{stroke:var(--most);stroke-width:3}polygon.open{fill:var(--most);stroke:none}\n"
    ".seen{fill:none;stroke:var(--ink);stroke-width:1.2;stroke-dasharray:3 3}"
    "circle.seen{fill:var(--ink);stroke:var(--paper);stroke-dasharray:none}\n"
    ".hit{fill:transparent;stroke:none;pointer-events:all}\n"
    ".compression{fill:var(--band);stroke:var(--need);stroke-width:1.2}\n"
    "polygon.tension{fill:var(--clash);stroke:var(--most);stroke-width:1.2}\n"
    "text.open{fill:var(--most);font-weight:700;stroke:none}\n"
    "rect.jack{fill:var(--paper);stroke:var(--most);stroke-width:1.5}\n"
    "polyline.shim{stroke:var(--soft);stroke-width:4;stroke-dasharray:1.5 4}\n"
    "polyline.lift{stroke:var(--most);stroke-width:2;stroke-dasharray:2 3}\n"
    "polyline.bond{stroke:var(--anchor);stroke-width:5}\n"
    "polyline.force{stroke:var(--most);stroke-width:2}polygon.force{fill:var(--most)}\n"
    "circle.governs{fill:var(--most);stroke:var(--paper);stroke-width:1.5}\n"
    "polyline.moment1,polyline.moment2,polyline.moment3,polyline.moment4{stroke-width:1.8}\n"
    "polyline.moment1{stroke:var(--m1);stroke-dasharray:2 3}\n"
    "polyline.moment2{stroke:var(--m2);stroke-dasharray:7 3}\n"
    "polyline.moment3{stroke:var(--m3);stroke-dasharray:9 3 2 3}\n"
    "polyline.moment4{stroke:var(--m4);stroke-width:2.4}\n"
    "circle.moment1{fill:var(--paper);stroke:var(--m1);stroke-width:1.5}\n"
    ".limit{stroke:var(--most);stroke-width:1.5;stroke-dasharray:10 4}\n"
    "polygon.band,rect.band{fill:var(--band)}\n"
    "rect.heat{shape-rendering:crispEdges}\n"
    ".contour{stroke:var(--soft);stroke-width:.6}.zero{stroke:var(--most);stroke-width:2.5}\n"
    ".h0{fill:var(--h0)}.h1{fill:var(--h1)}.h2{fill:var(--h2)}.h3{fill:var(--h3)}"
    ".h4{fill:var(--h4)}.h5{fill:var(--h5)}.h6{fill:var(--h6)}.h7{fill:var(--h7)}"
    ".h8{fill:var(--h8)}.h9{fill:var(--h9)}.h10{fill:var(--h10)}\n"
    "rect.total{fill:var(--anchor)}rect.loss{fill:var(--most)}rect.gain{fill:var(--gain)}\n"
    "polyline.need{stroke:var(--need);stroke-width:3}circle.need{fill:var(--need)}\n"
    "polyline.most{stroke:var(--most);stroke-width:3;stroke-dasharray:6 2}"
    "circle.most{fill:var(--most)}\n"
    "rect.window{fill:var(--window)}rect.clash{fill:var(--clash)}\n";

void report_picture_style(Text *text)
{
    text_add(text, document_svg_style);
    text_add(text, ":root[data-theme=\"light\"]{color-scheme:light;" LIGHT "}\n"
                   ":root[data-theme=\"dark\"]{color-scheme:dark;" DARK "}\n"
                   "@media print{:root[data-theme]{" LIGHT ";--paper:#fff}}\n");
}
