/* One sheet of a kind of panels. Private to shop*.c. */
#ifndef CLENCH_DRAWING_SHOP_H
#define CLENCH_DRAWING_SHOP_H

#include "draw.h"

typedef struct Shop {
    Draw *draw;
    int kind;
    const PanelPiece *piece; /* the first of its kind */
    DrawingSheet *sheet;
    DrawingView *plan;
    double scale, x_m; /* of the plan; mid-width on the sheet */
    int lift_across;
    PanelPoint *lift; /* [2 * lift_across] */
    int outside;      /* connectors of an anchor panel that no pocket takes, on a girder */
} Shop;

void shop_corners(const PanelShape *shape, Point corner[4]);
const PanelLiftAnswer *shop_lift(const Shop *shop); /* [PANEL_LIFT_COUNT] */
double shop_key_m(const Shop *shop, bool right);
/* Connectors of an anchor panel in its plan; counts those outside of its pockets. */
void shop_connectors(Shop *shop);
/* Cut across the bridge, under the plan; returns where the next view may begin. */
double shop_section(Shop *shop, double top_m);
bool shop_bars_known(const Draw *d);
void shop_bars(Shop *shop, double top_m);
void shop_tables(Shop *shop, Point top, double width_m);

#endif
