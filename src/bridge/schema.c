/* The one table of the bridge file: reader, list of values, JSON Schema and manual are made of it. */
#include "schema.h"

#include <assert.h>
#include <string.h>

#include "bridge_data.h"

/* clang-format off */
#define GROUP(path, standard, help) \
    {{path, SCHEMA_MAP, DIM_NONE, 0, 0, NULL, standard, help}, 0, 0}
#define LIST_OF(path, most, standard, owner, field, type, help) \
    {{path, SCHEMA_LIST, DIM_NONE, 1, most, NULL, standard, help}, offsetof(owner, field), sizeof(type)}
#define QUANTITY(path, dimension, least, most, standard, owner, field, help) \
    {{path, SCHEMA_QUANTITY, DIM_##dimension, least, most, NULL, standard, help}, offsetof(owner, field), 0}
#define UNSURE(name, mean, spread, id, help)                                             \
    QUANTITY("odds." name, NONE, 0.2, 5, mean, Bridge, odds.law[id].mean_1, help),         \
        QUANTITY("odds." name "_spread", NONE, 0, 2, spread, Bridge, odds.law[id].spread_1, \
                 "Of odds." name ".")
#define COUNT(path, least, most, standard, owner, field, help) \
    {{path, SCHEMA_COUNT_NUMBER, DIM_NONE, least, most, NULL, standard, help}, offsetof(owner, field), 0}
#define WORDS(path, standard, owner, field, help) \
    {{path, SCHEMA_TEXT, DIM_NONE, 0, 0, NULL, standard, help}, offsetof(owner, field), 0}
#define CHOICE(path, choices, standard, owner, field, help) \
    {{path, SCHEMA_CHOICE, DIM_NONE, 0, 0, choices, standard, help}, offsetof(owner, field), 0}
#define FLAG(path, standard, owner, field, help) \
    {{path, SCHEMA_FLAG, DIM_NONE, 0, 0, "no|yes", standard, help}, offsetof(owner, field), 0}

#define X(id, name, source) name "|"
static const char time_models[] = TIME_MODEL_LIST(X);
#undef X
#define X(name, average, building, live, gradient, wheel, counts, clause) name "|"
static const char joint_rules[] = JOINT_RULE_LIST(X);
#undef X
#define X(name, ton, area_in2) name "|"
static const char jack_sizes[] = "own|" JACK_SIZE_LIST(X);
#undef X

#define CONCRETE(part, i, what, strength, alpha, beta, cure, early) \
    GROUP("concrete." part, "", "Concrete of " what ".") , \
    QUANTITY("concrete." part ".strength", STRESS, 27.5e6, 150e6, strength, Bridge, concrete[i].strength_Pa, \
        "Specified 28-day strength; below 4 ksi is refused (AASHTO LRFD 5.4.2.1, from memory).") , \
    QUANTITY("concrete." part ".strength_at_loading", STRESS, 5e6, 150e6, "", Bridge, concrete[i].loading_Pa, \
        "Strength when first loaded; derived: 0.8 of the specified one.") , \
    QUANTITY("concrete." part ".mean_strength", STRESS, 5e6, 200e6, "", Bridge, concrete[i].mean_Pa, \
        "Mean 28-day strength, MC 2010 and EN 1992; derived: specified + 8 MPa.") , \
    QUANTITY("concrete." part ".measured_modulus", STRESS, 5e9, 80e9, "none", Bridge, concrete[i].modulus_Pa, \
        "Modulus measured at 28 days; none: by the formula of the time model.") , \
    CHOICE("concrete." part ".time_model", time_models, "", Bridge, concrete[i].time_model, \
        "Law of creep, shrinkage and strength with age; derived: the bridge's time_model.") , \
    CHOICE("concrete." part ".cement", CEMENT_CHOICES, "normal", Bridge, concrete[i].cement, \
        "Class of the cement: S, N or R of EN 1992 and MC 2010.") , \
    QUANTITY("concrete." part ".density", WEIGHT_DENSITY, 15e3, 30e3, "145 pcf", Bridge, concrete[i].density_N_per_m3, \
        "Weight density in the formula of the modulus, without reinforcement.") , \
    QUANTITY("concrete." part ".aggregate_factor", NONE, 0.5, 1.5, "1", Bridge, concrete[i].K1_1, \
        "K1 of AASHTO LRFD 5.4.2.4.") , \
    QUANTITY("concrete." part ".strength_alpha", TIME, 0, 20, alpha, Bridge, concrete[i].alpha_day, \
        "Alpha of f'c(t) = t/(alpha + beta t) f'c.") , \
    QUANTITY("concrete." part ".strength_beta", NONE, 0.5, 1.1, beta, Bridge, concrete[i].beta_1, \
        "Beta of f'c(t) = t/(alpha + beta t) f'c.") , \
    QUANTITY("concrete." part ".cure", TIME, 0.1, 90, cure, Bridge, concrete[i].cure_day, \
        "Age at the end of moist curing: shrinkage counts from here.") , \
    QUANTITY("concrete." part ".early_drying", NONE, 1, 2, early, Bridge, concrete[i].early_drying_1, \
        "AASHTO: on shrinkage where curing ends before 5 days; 1.2 moist, 1 after steam (5.4.2.3.3, from memory).") , \
    QUANTITY("concrete." part ".volume_to_surface", LENGTH, 0.01, 2, "", Bridge, concrete[i].volume_to_surface_m, \
        "Volume over drying surface; derived from the shape.") , \
    QUANTITY("concrete." part ".measured_creep", NONE, 0.1, 5, "1", Bridge, concrete[i].creep_1, \
        "Measured creep of the job's own concrete over the model's.") , \
    QUANTITY("concrete." part ".measured_shrinkage", NONE, 0, 5, "1", Bridge, concrete[i].shrinkage_1, \
        "Measured shrinkage of the job's own concrete over the model's.") , \
    QUANTITY("concrete." part ".expansion", EXPANSION, 1e-6, 3e-5, "6e-6/delta_degF", Bridge, concrete[i].expansion_per_K, \
        "Thermal expansion; AASHTO LRFD 5.4.2.2 (from memory).")

static const Row table[] = {
    WORDS("title", "untitled bridge", Bridge, title, "Name of the job, printed on every sheet."),
    CHOICE("units", UNIT_CHOICES, "US", Bridge, units, "Units of everything that is shown."),
    CHOICE("time_model", time_models, "AASHTO 2015", Bridge, time_model, "Law of creep and shrinkage of all concretes."),

    LIST_OF("spans", 24, NULL, Bridge, spans, SpanData, "The spans from left to right."),
    QUANTITY("spans[].length", LENGTH, 5, 150, NULL, SpanData, length_m,
        "Between bearings of a simple span, between piers of a continuous or tied one."),
    CHOICE("spans[].pier", PIER_CHOICES, "", SpanData, pier,
        "Connection over the pier at the right end; derived: piers.connection."),

    GROUP("piers", "", "How spans are connected over the piers."),
    CHOICE("piers.connection", PIER_CHOICES, "", Bridge, piers.connection,
        "All piers; derived: continuous for steel, link slab for pretensioned girders."),
    LIST_OF("piers.ties", 8, "", Bridge, piers.ties, TieData,
        "Ties through a pier of one girder line, where spans are tied."),
    QUANTITY("piers.ties[].below_top", LENGTH, -0.5, 5, NULL, TieData, below_top_m, "Level of the ties below the girder top."),
    QUANTITY("piers.ties[].area", AREA, 1e-5, 0.5, NULL, TieData, area_m2, "Area of the ties at this level, one girder line."),
    QUANTITY("piers.tie_yield", STRESS, 200e6, 2000e6, "75 ksi", Bridge, piers.tie_yield_Pa, "Yield stress of the ties."),
    QUANTITY("piers.tie_modulus", STRESS, 100e9, 220e9, "29000 ksi", Bridge, piers.tie_modulus_Pa, "Modulus of the ties."),
    CHOICE("piers.tie_kind", TIE_CHOICES, "bars", Bridge, piers.tie_kind,
        "Bars, whose fatigue threshold falls with their least stress (AASHTO LRFD 5.5.3.2, from memory), or plates and other steel (6.6.1.2.5, from memory)."),
    QUANTITY("piers.tie_threshold", STRESS, 1e7, 4e8, "none", Bridge, piers.tie_threshold_Pa,
        "Fatigue threshold of the ties' worst detail: coupler, weld, thread, hole, anchorage; none: fatigue of the ties is not proven."),
    QUANTITY("piers.tie_reach", LENGTH, 0, 40, "none", Bridge, piers.tie_reach_m,
        "How far the ties reach into a girder beyond its end with their yield developed; none: negative moment in the girders is not proven."),
    QUANTITY("piers.end_gap", LENGTH, 0.05, 3, "12 in", Bridge, piers.end_gap_m,
        "Between the girder ends at a tied pier: length of the diaphragm concrete there and free length of the ties."),
    QUANTITY("piers.bearing_offset", LENGTH, 0.05, 3, "12 in", Bridge, piers.bearing_offset_m,
        "From the pier line to each of the two bearings at a tied pier."),
    QUANTITY("piers.bearing_stiffness", STIFFNESS, 1e6, 1e12, "2000 kip/in", Bridge, piers.bearing_N_per_m,
        "Vertical, of each of the two bearings at a tied pier: soft ones let the pair turn. Elastomeric pads, common practice, no source."),
    QUANTITY("piers.diaphragm_width", LENGTH, 0.1, 5, "", Bridge, piers.diaphragm_width_m,
        "Width of diaphragm concrete pressed by one girder; derived: width of its top flange."),
    QUANTITY("piers.diaphragm_depth", LENGTH, 0.1, 6, "", Bridge, piers.diaphragm_depth_m,
        "Depth of the diaphragm below the girder top; derived: depth of the girder."),

    LIST_OF("supports", 25, "", Bridge, supports, SupportData,
        "One entry a support line from left to right; without it the first of each unit is fixed."),
    CHOICE("supports[].kind", SUPPORT_CHOICES, NULL, SupportData, kind, "What holds the girders along the bridge."),
    QUANTITY("supports[].stiffness", STIFFNESS, 0, 1e12, "none", SupportData, stiffness_N_per_m,
        "Of bearing and pier along the bridge, one girder; none: rigid where fixed, nothing where free."),
    FLAG("supports[].released", "no", SupportData, released, "Free to move along the bridge until the haunches are grouted."),

    GROUP("girders", NULL, "The girder lines, all alike."),
    COUNT("girders.count", 2, 40, NULL, Bridge, girders.count, "Number of girder lines; tubs count as one each."),
    QUANTITY("girders.spacing", LENGTH, 0.8, 10, NULL, Bridge, girders.spacing_m, "Centre to centre."),
    QUANTITY("girders.overhang", LENGTH, 0.1, 5, "", Bridge, girders.overhang_m,
        "Deck edge beyond the exterior girder; derived from deck.width, else 0.4 of the spacing."),
    CHOICE("girders.kind", GIRDER_CHOICES, NULL, Bridge, girders.kind, "Steel plate girder, steel tub of two webs, or pretensioned concrete."),
    LIST_OF("girders.plates", 60, "", Bridge, girders.plates, PlateData,
        "Steel: plates from left to right, each piece up to its station."),
    QUANTITY("girders.plates[].to", LENGTH, 0.5, 4000, "", PlateData, to_m,
        "Right end of this piece from the left end of the bridge; derived: to the end of the bridge."),
    QUANTITY("girders.plates[].top_width", LENGTH, 0.1, 3, NULL, PlateData, top_width_m, "Width of a top flange (a tub has two)."),
    QUANTITY("girders.plates[].top_thickness", LENGTH, 0.005, 0.2, NULL, PlateData, top_thickness_m, "Thickness of the top flange."),
    QUANTITY("girders.plates[].web_depth", LENGTH, 0.2, 6, NULL, PlateData, web_depth_m, "Depth of the web, measured vertically."),
    QUANTITY("girders.plates[].web_thickness", LENGTH, 0.005, 0.1, NULL, PlateData, web_thickness_m, "Thickness of each web."),
    QUANTITY("girders.plates[].bottom_width", LENGTH, 0.1, 6, NULL, PlateData, bottom_width_m, "Width of the bottom flange."),
    QUANTITY("girders.plates[].bottom_thickness", LENGTH, 0.005, 0.2, NULL, PlateData, bottom_thickness_m, "Thickness of the bottom flange."),
    QUANTITY("girders.web_slope", NONE, 0, 1, "0", Bridge, girders.web_slope_1, "Tub: horizontal per vertical of the webs."),
    QUANTITY("girders.steel_modulus", STRESS, 150e9, 220e9, "29000 ksi", Bridge, girders.steel_modulus_Pa, "Modulus of structural steel."),
    QUANTITY("girders.steel_yield", STRESS, 200e6, 800e6, "50 ksi", Bridge, girders.steel_yield_Pa, "Yield stress Fy of the flanges."),
    QUANTITY("girders.steel_expansion", EXPANSION, 1e-6, 3e-5, "6.5e-6/delta_degF", Bridge, girders.steel_expansion_per_K,
        "Thermal expansion; AASHTO LRFD 6.4.1 (from memory)."),
    QUANTITY("girders.steel_density", WEIGHT_DENSITY, 70e3, 85e3, "490 pcf", Bridge, girders.steel_density_N_per_m3, "Weight density of steel."),
    QUANTITY("girders.details", NONE, 0, 1, "5 %", Bridge, girders.details_1,
        "Weight of stiffeners, bracing and connectors over that of the plates (common practice, no source)."),
    WORDS("girders.shape", "none", Bridge, girders.shape, "Pretensioned: standard shape by name, \"BT-54\"."),
    QUANTITY("girders.area", AREA, 0.05, 5, "", Bridge, girders.area_m2, "Pretensioned: own section instead of a shape."),
    QUANTITY("girders.inertia", INERTIA, 1e-4, 10, "", Bridge, girders.inertia_m4, "Second moment about the horizontal axis."),
    QUANTITY("girders.centroid", LENGTH, 0.05, 5, "", Bridge, girders.centroid_m, "Centroid above the bottom fibre."),
    QUANTITY("girders.depth", LENGTH, 0.2, 6, "", Bridge, girders.depth_m, "Depth of the section."),
    QUANTITY("girders.top_width", LENGTH, 0.1, 5, "", Bridge, girders.top_width_m, "Width of the top flange."),
    QUANTITY("girders.perimeter", LENGTH, 0.5, 30, "", Bridge, girders.perimeter_m, "Drying surface per length."),
    QUANTITY("girders.density", WEIGHT_DENSITY, 15e3, 30e3, "150 pcf", Bridge, girders.density_N_per_m3, "Weight density of the reinforced girder."),
    LIST_OF("girders.strands", 24, "", Bridge, girders.strands, StrandRowData, "Pretensioned: rows of strands of one girder."),
    COUNT("girders.strands[].count", 1, 80, NULL, StrandRowData, count, "Strands in this row."),
    QUANTITY("girders.strands[].height", LENGTH, 0.02, 5, NULL, StrandRowData, height_m, "Above the girder soffit at mid-span."),
    QUANTITY("girders.strands[].debonded", LENGTH, 0, 40, "0 ft", StrandRowData, debonded_m, "Debonded length at each girder end."),
    QUANTITY("girders.strands[].harped_at", LENGTH, 0.5, 75, "none", StrandRowData, harped_at_m,
        "Harp points from each girder end; none: straight."),
    QUANTITY("girders.strands[].end_height", LENGTH, 0.02, 6, "", StrandRowData, end_height_m,
        "Above the soffit at the girder ends; derived: height."),
    QUANTITY("girders.strand_area", AREA, 1e-5, 5e-4, "0.217 in^2", Bridge, girders.strand_area_m2, "Area of one strand."),
    QUANTITY("girders.strand_diameter", LENGTH, 0.005, 0.03, "0.6 in", Bridge, girders.strand_diameter_m,
        "Diameter: transfer length is 60 of it (AASHTO LRFD 5.9.4.3.1, from memory)."),
    QUANTITY("girders.strand_jacking", STRESS, 500e6, 1700e6, "202.5 ksi", Bridge, girders.strand_jacking_Pa,
        "Stress at tensioning: 0.75 of 270 ksi (AASHTO LRFD 5.9.2.2, from memory)."),
    QUANTITY("girders.strand_yield", STRESS, 900e6, 2000e6, "243 ksi", Bridge, girders.strand_yield_Pa, "Yield stress fpy."),
    QUANTITY("girders.strand_modulus", STRESS, 150e9, 220e9, "28500 ksi", Bridge, girders.strand_modulus_Pa, "Modulus of strand."),
    QUANTITY("girders.strand_strength", STRESS, 1000e6, 2200e6, "270 ksi", Bridge, girders.strand_strength_Pa, "Tensile strength fpu of strand, ASTM A416 (from memory)."),
    QUANTITY("girders.unbraced", LENGTH, 0.5, 50, "none", Bridge, girders.unbraced_m,
        "Steel: spacing of cross-frames or lateral bracing that holds both flanges of a bare girder sideways."),
    QUANTITY("girders.detail_threshold", STRESS, 1e7, 4e8, "10 ksi", Bridge, girders.detail_Pa,
        "Steel: fatigue threshold of the flanges' worst detail; category C (studs, stiffeners), AASHTO LRFD table 6.6.1.2.5-3 (from memory)."),
    CHOICE("girders.spliced", SAID_CHOICES, "not said", Bridge, girders.spliced, "Steel: whether the flanges have bolted splices."),
    LIST_OF("girders.splices", 60, "", Bridge, girders.splices, SpliceData, "Steel: bolted splices of the flanges."),
    QUANTITY("girders.splices[].at", LENGTH, 0, 4000, NULL, SpliceData, at_m, "From the left end of the bridge."),
    QUANTITY("girders.splices[].slip", FORCE, 1e3, 1e8, NULL, SpliceData, slip_N, "Resistance to slip of the splice of the top flange, both flanges of a tub."),
    FLAG("girders.top_bars", "no", Bridge, girders.top_bars, "Bonded bars in the top flange, over all of the length that is in tension, carry its tension at transfer and until the haunches are grouted."),

    GROUP("deck", "", "The deck."),
    QUANTITY("deck.thickness", LENGTH, 0.12, 0.6, "8.5 in", Bridge, deck.thickness_m, "As cast."),
    QUANTITY("deck.wearing_allowance", LENGTH, 0, 0.08, "0.5 in", Bridge, deck.wearing_m, "Ground or worn off: weighs, but does not carry."),
    QUANTITY("deck.haunch", LENGTH, 0, 0.4, "2 in", Bridge, deck.haunch_m, "Deck soffit above the girder top."),
    QUANTITY("deck.width", LENGTH, 2, 60, "", Bridge, deck.width_m, "Edge to edge; derived from the girders."),
    QUANTITY("deck.density", WEIGHT_DENSITY, 15e3, 30e3, "150 pcf", Bridge, deck.density_N_per_m3, "Weight density of deck, closure and haunch."),

    QUANTITY("deck.crest_radius", LENGTH, 50, 1e6, "none", Bridge, deck.crest_m, "Radius of the profile over a crest; none: straight or in a sag."),
    QUANTITY("deck.crossfall", NONE, 0, 0.12, "none", Bridge, deck.crossfall_1, "Steepest slope of the deck across the bridge, \"2 %\", either way; \"0 %\": level; none: not said."),
    QUANTITY("deck.grade", NONE, 0, 0.12, "none", Bridge, deck.grade_1, "Steepest slope of the deck along the bridge, either way; \"0 %\": level; none: not said."),

    QUANTITY("deck.skew_degrees", NONE, -60, 60, "0", Bridge, deck.skew_degrees,
        "Skew of the deck's ends against the square, degrees; positive: the right side, looking along, is farther on. The girder lines are judged as if square."),
    QUANTITY("deck.plan_radius", LENGTH, 50, 1e6, "none", Bridge, deck.plan_radius_m,
        "Radius of the bridge in plan; none: straight. The girder lines are judged as if straight."),
    CHOICE("deck.curve", CURVE_CHOICES, "right", Bridge, deck.curve, "Side of the centre of that radius, looking along."),

    GROUP("panels", "", "The precast panels and the runs of joints that are compressed."),
    QUANTITY("panels.length", LENGTH, 0.9, 6, "10 ft", Bridge, panels.length_m, "Nominal length along the bridge: the next that fits is taken."),
    CHOICE("panels.layout", PANEL_LAYOUT_CHOICES, "nominal", Bridge, panels.layout,
        "Nominal: equal panels, as near to panels.length as fits; or within panels.longest, truck and crane as few panels, or as few kinds, as can be."),
    QUANTITY("panels.longest", LENGTH, 0.9, 6, "12 ft", Bridge, panels.longest_m, "Longest panel along the bridge of those two layouts; truck and crane may ask for less (common practice, no source)."),
    QUANTITY("panels.shortest", LENGTH, 0.5, 6, "6 ft", Bridge, panels.shortest_m, "Shortest panel of those two layouts, where it fits (common practice, no source)."),
    QUANTITY("panels.joint_clear", LENGTH, 0, 3, "1 ft", Bridge, panels.clear_m,
        "Joints of those two layouts stay that far from piers and splices; nominal: from tied piers alone (common practice, no source)."),
    CHOICE("panels.skew", PANEL_SKEW_CHOICES, "ends", Bridge, panels.skew, "What a skew cuts: the ends of the deck, panels square; or all panels."),
    CHOICE("panels.crown", PANEL_CROWN_CHOICES, "none", Bridge, panels.crown,
        "Crown at mid-width by deck.crossfall: a bed of two planes, a thicker middle, or panels in two with a longitudinal closure between."),
    QUANTITY("panels.strip", LENGTH, 0.15, 3, "2 ft", Bridge, panels.strip_m, "Width of that longitudinal closure."),
    QUANTITY("panels.joint_width", LENGTH, 0, 0.1, "0.5 in", Bridge, panels.joint_m, "Width of a narrow cast joint: panels are cast that much shorter (common practice, no source)."),
    LIST_OF("panels.blockouts", 200, "", Bridge, panels.blockouts, BlockoutData, "Holes and recesses of the deck beside the pockets: drains, posts, manholes."),
    QUANTITY("panels.blockouts[].at", LENGTH, 0, 4000, NULL, BlockoutData, at_m, "Its middle from the left end of the bridge."),
    QUANTITY("panels.blockouts[].across", LENGTH, -30, 30, NULL, BlockoutData, across_m, "Its middle from mid-width, to the right looking along."),
    QUANTITY("panels.blockouts[].along", LENGTH, 0.02, 4, NULL, BlockoutData, along_m, "Its length along the bridge."),
    QUANTITY("panels.blockouts[].wide", LENGTH, 0.02, 10, NULL, BlockoutData, wide_m, "Its width across the bridge."),
    QUANTITY("panels.blockouts[].deep", LENGTH, 0.01, 1, "none", BlockoutData, deep_m, "Depth from the top; none: through the panel."),
    CHOICE("panels.joint", PANEL_JOINT_CHOICES, "match-cast epoxied", Bridge, panels.joint, "How two panels meet."),
    QUANTITY("panels.anchor_length", LENGTH, 1, 12, "12 ft", Bridge, panels.anchor_m, "Anchor panels at both ends of a run, grouted before jacking."),
    QUANTITY("panels.anchor_connectors", FORCE, 1e3, 1e8, "none", Bridge, panels.anchor_connectors_N,
        "Nominal strength of the connectors of one anchor panel on one girder line; none: not a limit."),
    QUANTITY("panels.gap", LENGTH, 0.6, 6, "6 ft", Bridge, panels.gap_m, "Width of the jacking gap."),
    QUANTITY("panels.top_bar", AREA, 1e-5, 2e-3, "none", Bridge, panels.top_bar_m2, "Area of one transverse top bar; none: the steel that is needed is told."),
    QUANTITY("panels.top_bar_spacing", LENGTH, 0.03, 1, "none", Bridge, panels.top_bar_spacing_m, "Spacing of the transverse top bars."),
    QUANTITY("panels.bottom_bar", AREA, 1e-5, 2e-3, "none", Bridge, panels.bottom_bar_m2, "Area of one transverse bottom bar."),
    QUANTITY("panels.bottom_bar_spacing", LENGTH, 0.03, 1, "none", Bridge, panels.bottom_bar_spacing_m, "Spacing of the transverse bottom bars."),
    QUANTITY("panels.top_cover", LENGTH, 0.01, 0.12, "2.5 in", Bridge, panels.top_cover_m,
        "Clear cover of the transverse top bars with the wearing allowance, AASHTO LRFD 5.10.1 (from memory)."),
    QUANTITY("panels.bottom_cover", LENGTH, 0.01, 0.12, "1 in", Bridge, panels.bottom_cover_m,
        "Clear cover of the transverse bottom bars, AASHTO LRFD 5.10.1 (from memory)."),
    QUANTITY("panels.bar_yield", STRESS, 200e6, 1000e6, "60 ksi", Bridge, panels.bar_yield_Pa, "Yield stress of the bars in the panels."),
    QUANTITY("panels.anchor_bars", AREA, 1e-5, 0.1, "none", Bridge, panels.anchor_bars_m2,
        "Transverse steel of one anchor panel that ties its thrust between the girders."),
    QUANTITY("panels.burst_bars", AREA, 1e-5, 0.1, "none", Bridge, panels.burst_bars_m2,
        "Transverse steel against bursting behind one jack."),
    QUANTITY("panels.depth_bars", AREA, 1e-5, 0.1, "none", Bridge, panels.depth_bars_m2,
        "Steel through the depth against bursting behind one jack."),
    QUANTITY("panels.edge_bars", AREA, 1e-5, 0.1, "none", Bridge, panels.edge_bars_m2,
        "Transverse steel along the loaded edge between two jacks."),
    COUNT("panels.phases", 1, 2, "2", Bridge, panels.phases, "Casting phases: with 2 every other panel is cast first."),
    LIST_OF("runs", 24, "", Bridge, runs, RunData, "Runs of panels compressed by one set of jacks; without it one a unit."),
    COUNT("runs[].from_span", 1, 24, NULL, RunData, from_span, "First span of the run, counted from 1."),
    COUNT("runs[].to_span", 1, 24, NULL, RunData, to_span, "Last span of the run."),
    QUANTITY("runs[].gap_at", LENGTH, 0.5, 4000, "", RunData, gap_at_m,
        "Middle of the jacking gap from the left end of the bridge; derived: mid-span of the middle span."),

    GROUP("connectors", "", "Connectors between girders and deck."),
    CHOICE("connectors.kind", CONNECTOR_CHOICES, "", Bridge, connectors.kind, "Headed studs or bars (concrete girders alone); derived: studs on steel, bars on concrete girders."),
    QUANTITY("connectors.diameter", LENGTH, 0.009, 0.05, "7/8 in", Bridge, connectors.diameter_m, "Diameter of a stud's shank or of a bar."),
    QUANTITY("connectors.height", LENGTH, 0.05, 0.5, "none", Bridge, connectors.height_m, "Height of a stud or bar above the girder top, as built."),
    QUANTITY("connectors.strength", STRESS, 300e6, 800e6, "60 ksi", Bridge, connectors.strength_Pa, "Tensile strength Fu of studs."),
    QUANTITY("connectors.yield", STRESS, 200e6, 700e6, "60 ksi", Bridge, connectors.yield_Pa, "Yield stress of bars, at most 60 ksi counts."),
    COUNT("connectors.per_cluster", 0, 100, "0", Bridge, connectors.per_cluster, "Connectors in one pocket; 0: not chosen, the number that is needed is told."),
    COUNT("connectors.per_row", 1, 20, "3", Bridge, connectors.per_row, "Connectors side by side across a pocket."),
    QUANTITY("connectors.pitch", LENGTH, 0.02, 1, "5.25 in", Bridge, connectors.pitch_m, "Between rows along the bridge inside a pocket."),
    QUANTITY("connectors.gauge", LENGTH, 0.02, 1, "3.5 in", Bridge, connectors.gauge_m, "Between connectors across a pocket."),
    QUANTITY("connectors.spacing", LENGTH, 0.15, 3, "4 ft", Bridge, connectors.spacing_m, "Between pockets along the bridge."),
    COUNT("connectors.anchor_count", 0, 1000, "0", Bridge, connectors.anchor_count,
        "Connectors of one anchor panel on one girder line; 0: not chosen, the number that is needed is told."),
    QUANTITY("connectors.anchor_length", LENGTH, 0.3, 12, "none", Bridge, connectors.anchor_length_m,
        "Length of that group along the bridge; none: that of the anchor panel."),
    QUANTITY("connectors.hold_down", FORCE, 1e3, 1e7, "none", Bridge, connectors.hold_down_N,
        "Resistance of a separate hold-down at the inner edge of an anchor panel, one girder line; none: the connectors do it."),
    QUANTITY("connectors.haunch_most", LENGTH, 0, 0.5, "none", Bridge, connectors.haunch_most_m, "Deepest haunch; none: deck.haunch."),
    CHOICE("connectors.surface", SURFACE_CHOICES, "roughened", Bridge, connectors.surface,
        "Top of concrete girders under the haunch: roughened to 1/4 in or not."),
    CHOICE("connectors.soffit", SURFACE_CHOICES, "not roughened", Bridge, connectors.soffit,
        "Soffit of the panels over the haunch, roughened to 1/4 in or as the form leaves it; bars count with the weaker face."),
    QUANTITY("connectors.width", LENGTH, 0.05, 5, "none", Bridge, connectors.width_m, "Width of the interface on concrete girders; none: the top flange."),
    QUANTITY("connectors.grout", STRESS, 10e6, 150e6, "5 ksi", Bridge, connectors.grout_Pa, "Strength of the grout in pockets and haunch, AASHTO LRFD 9.7.5.3 (from memory)."),
    QUANTITY("connectors.anchor_grout", STRESS, 10e6, 150e6, "5 ksi", Bridge, connectors.anchor_grout_Pa,
        "Strength of the grout at the anchor panels on the day of jacking (common practice, no source)."),
    QUANTITY("connectors.grout_density", WEIGHT_DENSITY, 15e3, 30e3, "145 pcf", Bridge, connectors.grout_density_N_per_m3, "Weight density of the grout, for its modulus."),

#include "schema_seat.h"

#include "schema_work.h"
#include "schema_ways.h"
};
/* clang-format on */

enum { ROW_COUNT = sizeof table / sizeof table[0] };

int bridge_schema_count(void) { return ROW_COUNT; }

const Row *schema_row(int index)
{
    assert(index >= 0 && index < ROW_COUNT);
    return &table[index];
}

const SchemaRow *bridge_schema_row(int index) { return &schema_row(index)->schema; }

int schema_find(const char *path)
{
    for (int i = 0; i < ROW_COUNT; i++)
        if (strcmp(table[i].schema.path, path) == 0) return i;
    return -1;
}

const char *schema_leaf(const char *path)
{
    const char *dot = strrchr(path, '.');
    return dot ? dot + 1 : path;
}

static bool is_child(const char *path, const char *prefix)
{
    const size_t length = strlen(prefix);
    if (strncmp(path, prefix, length) != 0) return false;
    const char *rest = path + length;
    if (length > 0) {
        if (*rest != '.') return false;
        rest++;
    }
    return *rest && strpbrk(rest, ".[") == NULL;
}

int schema_child(const char *prefix, int from)
{
    for (int i = from; i < ROW_COUNT; i++)
        if (is_child(table[i].schema.path, prefix)) return i;
    return -1;
}

const char *choice_word(const char *choices, int index, int *length)
{
    for (const char *at = choices; *at;) {
        const size_t n = strcspn(at, "|");
        if (index-- == 0) {
            *length = (int)n;
            return at;
        }
        at += n + (at[n] == '|');
    }
    return NULL;
}

int choice_find(const char *choices, const char *word)
{
    int length = 0;
    const char *at = NULL;
    for (int i = 0; (at = choice_word(choices, i, &length)); i++)
        if (strlen(word) == (size_t)length && strncmp(at, word, (size_t)length) == 0) return i;
    return -1;
}
