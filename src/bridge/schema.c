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

    GROUP("handling", "", "Panels on their way from the bed to the girders."),
    QUANTITY("handling.inset_along", NONE, 0, 0.45, "0.207", Bridge, handling.inset_along_1, "Lifting points from the edge over the panel's length along the bridge."),
    QUANTITY("handling.inset_across", NONE, 0, 0.45, "0.207", Bridge, handling.inset_across_1, "Lifting points from the end over the panel's length across the bridge."),
    COUNT("handling.points", 0, 12, "0", Bridge, handling.points,
        "Lifting points across the bridge in each of two rows: 2, or more with rigging that evens them out; 0: not chosen, the number that is needed is told."),
    QUANTITY("handling.sling_degrees", NONE, 30, 90, "60", Bridge, handling.sling_degrees, "Slings above the horizontal, degrees; 90 with a frame."),
    QUANTITY("handling.stripping_strength", STRESS, 10e6, 100e6, "3.5 ksi", Bridge, handling.strip_strength_Pa, "Strength when lifted off the bed (common practice, no source)."),
    QUANTITY("handling.stripping_factor", NONE, 1, 3, "1.5", Bridge, handling.strip_1, "On the weight when lifted off the bed: 1.3 to 1.5 (precast design handbook practice, from memory)."),
    QUANTITY("handling.erection_factor", NONE, 1, 3, "1.5", Bridge, handling.erect_1, "On the weight on the way and at erection (precast design handbook practice, from memory)."),
    QUANTITY("handling.pocket", LENGTH, 0, 1, "14 in", Bridge, handling.pocket_m, "Length of a pocket along the bridge: what it takes from the panel's section."),
    QUANTITY("handling.insert", FORCE, 1e3, 1e7, "none", Bridge, handling.insert_N, "Ultimate strength of one lifting insert in the line of its sling."),
    QUANTITY("handling.insert_margin", NONE, 1, 10, "4", Bridge, handling.insert_margin_1, "Strength of an insert over its load, 29 CFR 1926.704."),
    QUANTITY("handling.truck", FORCE, 1e4, 5e6, "none", Bridge, handling.truck_N, "Payload of the truck; none: the legal one is shown."),
    QUANTITY("handling.truck_width", LENGTH, 1, 10, "none", Bridge, handling.truck_width_m, "Width that may travel, with its permit; none: the legal one is shown."),
    QUANTITY("handling.crane", FORCE, 1e4, 5e7, "none", Bridge, handling.crane_N, "Capacity of the crane's chart at the worst radius."),
    QUANTITY("handling.crane_share", NONE, 0.3, 1, "0.75", Bridge, handling.crane_share_1, "Of the chart that is used (common practice, no source)."),
    QUANTITY("handling.crane_factor", NONE, 1, 3, "1.25", Bridge, handling.crane_1, "On the weight for the crane (common practice, no source)."),
    QUANTITY("handling.rigging", FORCE, 0, 1e6, "2 kip", Bridge, handling.rigging_N, "Weight of slings and frame (common practice, no source)."),

    GROUP("casting", "", "The yard: flat beds, storage, and how fast panels are set."),
    QUANTITY("casting.bed", LENGTH, 3, 500, "200 ft", Bridge, casting.bed_m, "Length of a casting bed."),
    COUNT("casting.beds", 1, 20, "1", Bridge, casting.beds, "Number of beds."),
    QUANTITY("casting.clear", LENGTH, 0, 5, "3 ft", Bridge, casting.clear_m, "Free at the ends of a bed, and between panels that are not cast against each other (common practice, no source)."),
    QUANTITY("casting.reset", TIME, 0, 30, "2 day", Bridge, casting.reset_day, "From lifting the panels to the next casting on that bed: cleaning, bars, forms (common practice, no source)."),
    QUANTITY("casting.least_age", TIME, 1, 1000, "28 day", Bridge, casting.least_age_day, "Least age of a panel when it is set; 60 to 90 days are worth far more under the thrust (common practice, no source)."),
    COUNT("casting.stack", 1, 12, "5", Bridge, casting.stack, "Panels on top of each other in the yard (common practice, no source)."),
    COUNT("casting.set_per_day", 1, 200, "15", Bridge, casting.per_day, "Panels set in a day: 12 to 25 (common practice, no source)."),

    GROUP("closing", "", "What closes a joint and holds it until the glue is hard."),
    QUANTITY("closing.pressure", STRESS, 0, 2e6, "40 psi", Bridge, closing.pressure_Pa,
        "Average temporary pressure on the joint: 40 psi, nowhere less than 30 (AASHTO segmental provisions, from memory); 5 to 15 psi are practice with exact long-line faces."),
    CHOICE("closing.means", CLOSING_CHOICES, "bolts", Bridge, closing.means, "Bolts across the joint, or chain pullers."),
    QUANTITY("closing.bolt", FORCE, 1e3, 1e6, "20 kip", Bridge, closing.bolt_N, "Pull of one bolt that its seat in the panel bears (common practice, no source)."),
    QUANTITY("closing.puller", FORCE, 1e3, 2e5, "6 kip", Bridge, closing.puller_N, "Pull of one chain puller: 1.5 to 6 tons (common practice, no source)."),
    COUNT("closing.pullers", 2, 40, "6", Bridge, closing.pullers, "Chain pullers that there are: 40 kip together at best (common practice, no source)."),
    QUANTITY("closing.film", LENGTH, 0.0002, 0.01, "0.125 in", Bridge, closing.film_m, "Glue put on, both faces together: 1/16 in on each or 1/8 in on one (AASHTO segmental provisions, from memory)."),
    QUANTITY("closing.waste", NONE, 0, 1, "15 %", Bridge, closing.waste_1, "Glue more than that (common practice, no source)."),
    QUANTITY("closing.temperature", TEMPERATURE, 250, 330, "68 degF", Bridge, closing.temperature_K, "Of the joint's faces: 40 to 115 degF (AASHTO segmental provisions, from memory)."),
    QUANTITY("closing.open_time", TIME, 0.003, 1, "60 min", Bridge, closing.open_day, "From mixing to pressure that the product allows (AASHTO segmental provisions, from memory: 60 min, less in heat)."),
    QUANTITY("closing.open_at", TEMPERATURE, 270, 330, "68 degF", Bridge, closing.open_at_K, "Temperature up to which it does: half for each 18 degF more (from memory)."),
    QUANTITY("closing.spreading", TIME, 0, 0.5, "15 min", Bridge, closing.spread_day, "Mixing and spreading on one joint (common practice, no source)."),
    QUANTITY("closing.panel_cycle", TIME, 0, 0.5, "7 min", Bridge, closing.place_day, "Setting a panel, once the crew is trained (common practice, no source)."),
    QUANTITY("closing.pulling", TIME, 0, 0.5, "10 min", Bridge, closing.pull_day, "Pulling it to the joint and looking at the bead (common practice, no source)."),

    GROUP("ends", "", "Backwalls and expansion joints at the ends of a unit."),
    QUANTITY("ends.clearance", LENGTH, 0, 1, "none", Bridge, ends.clearance_m, "Between the unit's end and what stands beside it when the panels are set."),
    QUANTITY("ends.bearing", LENGTH, 0, 1, "none", Bridge, ends.bearing_m, "Movement that a bearing allows either way."),
    QUANTITY("ends.rise", TEMPERATURE_DIFF, 0, 80, "60 delta_degF", Bridge, ends.rise_K, "Warmest bridge above the temperature when the panels are set (range of AASHTO LRFD 3.12.2, from memory)."),
    QUANTITY("ends.fall", TEMPERATURE_DIFF, 0, 80, "70 delta_degF", Bridge, ends.fall_K, "Coldest bridge below it (range of AASHTO LRFD 3.12.2, from memory)."),

    GROUP("closure", "", "What fills the jacking gap."),
    QUANTITY("closure.release_strength", STRESS, 5e6, 100e6, "4 ksi", Bridge, closure.release_Pa, "Strength of the closure without which the jacks stay (common practice, no source)."),
    QUANTITY("closure.fraction", NONE, 0.1, 1, "60 %", Bridge, closure.fraction_1, "Share of the width that is cast round the jacks; the rest is fill."),
    GROUP("jacks", "", "The jacks of one gap."),
    COUNT("jacks.count", 0, 100, "0", Bridge, jacks.count, "Number of jacks; 0: not chosen yet, no limit."),
    CHOICE("jacks.size", jack_sizes, "own", Bridge, jacks.size,
        "A generic trade size, for its area and rated force (generic sizes, from memory); own: the product's own figures below."),
    QUANTITY("jacks.rated", FORCE, 1e4, 1e8, "", Bridge, jacks.rated_N, "Rated force of one jack; derived: of its size, 2 kip a ton; own size without it: no limit."),
    QUANTITY("jacks.area", AREA, 1e-4, 0.5, "", Bridge, jacks.area_m2, "Effective area of one jack; derived: of its size; open: the plan proposes a size."),
    QUANTITY("jacks.stroke", LENGTH, 0.01, 1, "6 in", Bridge, jacks.stroke_m, "Stroke of one jack (common practice, no source)."),
    QUANTITY("jacks.closed_height", LENGTH, 0.05, 2, "16 in", Bridge, jacks.closed_m, "Length of one jack with its piston in (common practice, no source)."),
    QUANTITY("jacks.packing", LENGTH, 0, 2, "4 in", Bridge, jacks.packing_m, "Plates and packing at both ends of a jack, together, at the least (common practice, no source)."),
    QUANTITY("jacks.highest_pressure", STRESS, 5e6, 3e8, "10000 psi", Bridge, jacks.pressure_Pa, "Highest pressure of jack, hoses and pump (common practice, no source)."),
    QUANTITY("jacks.bore_friction", NONE, 0, 0.2, "2 %", Bridge, jacks.bore_friction_1,
        "Share of the force that seals and bore take while pushing; a calibration line holds it already (common practice, no source)."),
    QUANTITY("jacks.calibration_zero", FORCE, -1e6, 1e6, "0 kip", Bridge, jacks.calibration_zero_N, "Certificate, force of one jack = a + b * pressure: a."),
    QUANTITY("jacks.calibration_slope", AREA, 1e-4, 0.5, "", Bridge, jacks.calibration_slope_m2,
        "Certificate, force of one jack = a + b * pressure: b; derived: area less bore friction."),
    QUANTITY("jacks.calibration_off", NONE, 0, 0.2, "2 %", Bridge, jacks.calibration_off_1, "How far the force may be off that line (common practice, no source)."),
    WORDS("jacks.certificate", "none", Bridge, jacks.certificate, "Number of the certificate of jacks and gauges, calibrated together."),
    WORDS("jacks.certificate_date", "none", Bridge, jacks.certificate_date, "Its date: 6 to 12 months are usual (common practice, no source)."),
    QUANTITY("jacks.gauge_division", STRESS, 1e3, 1e7, "100 psi", Bridge, jacks.division_Pa, "One division of the pressure gauge (common practice, no source)."),
    QUANTITY("jacks.gauge_range", STRESS, 5e6, 3e8, "10000 psi", Bridge, jacks.range_Pa, "Full scale of the pressure gauge (common practice, no source)."),
    QUANTITY("jacks.gauge_accuracy", NONE, 0.0005, 0.05, "1 %", Bridge, jacks.accuracy_1, "Of full scale: grade 1A of ASME B40.100 (from memory)."),
    QUANTITY("jacks.use", NONE, 0.3, 1, "80 %", Bridge, jacks.use_1, "Of rated force, highest pressure and stroke that is used (common practice, no source)."),
    COUNT("jacks.sets", 1, 8, "1", Bridge, jacks.sets, "Sets side by side across the width, each with its own pump or valve, and gauge."),
    LIST_OF("jacks.places", 100, "", Bridge, jacks.places, PlaceData, "Where the jacks stand; without it evenly, half a spacing from the edges."),
    QUANTITY("jacks.places[].across", LENGTH, -30, 30, NULL, PlaceData, across_m, "From the middle of the deck's width, to the right looking along the bridge."),
    COUNT("jacks.places[].set", 1, 8, "1", PlaceData, set, "The set that it belongs to, counted from the left."),
    QUANTITY("jacks.margin", NONE, 1, 4, "2", Bridge, jacks.margin_1, "Rated over planned force (common practice, no source)."),
    QUANTITY("jacks.strut_stiffness", STIFFNESS, 1e6, 1e12, "3500 kip/in", Bridge, jacks.strut_N_per_m,
        "Of the locked jacks of one girder line (common practice, no source)."),
    QUANTITY("jacks.above_mid", LENGTH, -0.2, 0.2, "0 in", Bridge, jacks.above_mid_m, "Line of the jacks above deck mid-depth."),
    QUANTITY("jacks.plate_width", LENGTH, 0.05, 2, "10 in", Bridge, jacks.plate_width_m, "Bearing plate of one jack across the bridge."),
    QUANTITY("jacks.plate_height", LENGTH, 0.03, 0.6, "6 in", Bridge, jacks.plate_height_m, "Bearing plate of one jack over the depth of the deck."),
    QUANTITY("jacks.off_mid", LENGTH, 0, 0.1, "0.25 in", Bridge, jacks.off_m, "How far the jacks may stand above or below their line (common practice, no source)."),
    QUANTITY("jacks.one_out_margin", NONE, 1, 4, "1.5", Bridge, jacks.one_out_1, "Rated over planned force with one jack out (common practice, no source)."),
    GROUP("jacking", "", "The day of jacking: steps, holds, what is known how well, and when to stop."),
    LIST_OF("jacking.stages", 8, "", Bridge, jacking.stages, double, "Stages, as shares of the thrust; without it 60 % and 100 % (common practice, no source)."),
    QUANTITY("jacking.stages[]", NONE, 0.05, 1, NULL, ListData, count, "A stage ends at this share: walk the deck, all readings."),
    LIST_OF("jacking.steps", JACK_STEPS_MAX, "", Bridge, jacking.steps, StepData,
        "Steps in their order, the last the whole thrust; without it 10, 25, 50, 75, 90 and 100 % and the ends of the stages (common practice, no source)."),
    QUANTITY("jacking.steps[].share", NONE, 0.01, 1.1, NULL, StepData, share_1, "Share of the thrust; may go down again."),
    QUANTITY("jacking.steps[].hold", TIME, 0, 2, "none", StepData, hold_day, "Hold before the next step; none: as the group says."),
    QUANTITY("jacking.step_hold", TIME, 0, 1, "5 min", Bridge, jacking.step_hold_day, "Hold after a step (common practice, no source)."),
    QUANTITY("jacking.stage_hold", TIME, 0, 1, "15 min", Bridge, jacking.stage_hold_day, "Hold at the end of a stage (common practice, no source)."),
    QUANTITY("jacking.last_hold", TIME, 0, 1, "30 min", Bridge, jacking.last_hold_day, "Hold at the whole thrust, then all is locked (common practice, no source)."),
    QUANTITY("jacking.long_hold", TIME, 0.04, 60, "24 h", Bridge, jacking.long_hold_day, "Hold on the locks before it is accepted (common practice, no source)."),
    QUANTITY("jacking.pumping", TIME, 0.001, 1, "45 min", Bridge, jacking.pumping_day, "Pumping from nothing to the whole thrust, without holds (common practice, no source)."),
    QUANTITY("jacking.seating_least", LENGTH, 0, 0.01, "0.002 in", Bridge, jacking.seating_least_m, "Closing of one joint under the thrust, the least (common practice, no source)."),
    QUANTITY("jacking.seating_most", LENGTH, 0, 0.02, "0.01 in", Bridge, jacking.seating_most_m, "The same, the most (common practice, no source)."),
    QUANTITY("jacking.deck_modulus_off", NONE, 0, 0.5, "15 %", Bridge, jacking.deck_off_1, "How far the panels' modulus may be off; less once cylinders are tested (common practice, no source)."),
    QUANTITY("jacking.girder_stiffness_off", NONE, 0, 0.5, "", Bridge, jacking.girder_off_1,
        "How far the girders' stiffness may be off; derived: 3 % steel, 12 % concrete (common practice, no source)."),
    QUANTITY("jacking.difference", TEMPERATURE_DIFF, 0, 30, "5 delta_degF", Bridge, jacking.difference_K,
        "Window: most difference of mean temperatures between deck and girders, and its change since the zero reading (common practice, no source)."),
    QUANTITY("jacking.rate", TEMPERATURE_DIFF, 0, 30, "2 delta_degF", Bridge, jacking.rate_K, "Most change of that difference in an hour (common practice, no source)."),
    QUANTITY("jacking.swing", TEMPERATURE_DIFF, 0, 40, "10 delta_degF", Bridge, jacking.swing_K, "Change of that difference to be expected while the jacks are locked (common practice, no source)."),
    QUANTITY("jacking.movement_margin", NONE, 1, 3, "1.5", Bridge, jacking.movement_1, "Stroke over expected movement, before movement_reserve (common practice, no source)."),
    QUANTITY("jacking.movement_reserve", LENGTH, 0, 0.2, "1 in", Bridge, jacking.reserve_m, "Stroke kept beside that (common practice, no source)."),
    QUANTITY("jacking.uneven", LENGTH, 0, 0.1, "0.5 in", Bridge, jacking.uneven_m, "Room in the gap for faces that are not square (common practice, no source)."),
    QUANTITY("jacking.alarm_movement", NONE, 0.01, 0.5, "10 %", Bridge, jacking.alarm_movement_1, "Movement off the plan: hold (common practice, no source)."),
    QUANTITY("jacking.alarm_sides", LENGTH, 1e-4, 0.05, "0.125 in", Bridge, jacking.alarm_sides_m, "One side ahead of the other beyond the plan: hold (common practice, no source)."),
    QUANTITY("jacking.alarm_force", NONE, 0.005, 0.2, "5 %", Bridge, jacking.alarm_force_1, "Gauges, or gauge and load cell, apart: hold (common practice, no source)."),
    QUANTITY("jacking.alarm_drop", NONE, 0.002, 0.2, "3 %", Bridge, jacking.alarm_drop_1, "Fall of the force in 15 minutes of a hold: hold (common practice, no source)."),
    QUANTITY("jacking.alarm_slip", LENGTH, 1e-5, 0.01, "0.0156 in", Bridge, jacking.alarm_slip_m, "Slip of an anchor panel beyond the plan: hold (common practice, no source)."),
    QUANTITY("jacking.abort_slip", LENGTH, 1e-5, 0.02, "0.0312 in", Bridge, jacking.abort_slip_m, "The same: back one stage (common practice, no source)."),
    QUANTITY("jacking.alarm_camber", LENGTH, 1e-4, 0.1, "0.5 in", Bridge, jacking.alarm_camber_m, "Girder off its expected rise: back one stage (common practice, no source)."),
    QUANTITY("jacking.alarm_bearing", NONE, 0.01, 1, "25 %", Bridge, jacking.alarm_bearing_1, "Bearing off its expected movement: back one stage (common practice, no source)."),
    QUANTITY("jacking.exclusion", LENGTH, 3, 300, "30 ft", Bridge, jacking.exclusion_m, "Nobody nearer to the gap, in line with the jacks or below (common practice, no source)."),
    GROUP("shims", "", "Seats of the panels until the haunches are grouted, one girder line."),
    QUANTITY("shims.friction", NONE, 0, 1, "0.2", Bridge, shims.friction_1, "Friction under a sliding panel, the most: it takes from the thrust (common practice, no source: measure it)."),
    QUANTITY("shims.friction_least", NONE, 0, 1, "", Bridge, shims.friction_least_1,
        "The least friction, that holds the panels before they are grouted; derived: half of shims.friction (common practice, no source: measure it)."),
    QUANTITY("shims.vertical", BED_STIFFNESS, 1e6, 1e13, "2000 kip/in/ft", Bridge, shims.vertical_N_per_m2, "Vertical stiffness of the shims per length."),
    QUANTITY("shims.horizontal", BED_STIFFNESS, 1e6, 1e13, "1000 kip/in/ft", Bridge, shims.horizontal_N_per_m2, "Stiffness of a sticking shim along the bridge."),
    QUANTITY("shims.connectors", BED_STIFFNESS, 1e6, 1e13, "", Bridge, shims.connector_N_per_m2,
        "Slip stiffness of the grouted interface, anchors too; derived: 2000 kip/in/ft on steel (studs, EN 1994-2 A.3 from memory), 20000 on concrete (rough grouted face; common practice, no source)."),
    QUANTITY("shims.spacing", LENGTH, 0.1, 6, "", Bridge, shims.spacing_m, "Longest way of a panel between two shims of a girder line; derived: panels.length."),
    QUANTITY("shims.imperfection", LENGTH, 0, 0.1, "0.25 in", Bridge, shims.imperfection_m,
        "Height by which a shim may be missed, bow of the strip between its neighbours (common practice, no source)."),

    GROUP("concrete", "", "The concretes."),
    CONCRETE("girder", CONCRETE_GIRDER, "the pretensioned girders", "8.5 ksi", "0.7 day", "0.98", "1 day", "1"),
    CONCRETE("panel", CONCRETE_PANEL, "the panels", "6 ksi", "4 day", "0.85", "7 day", "1.2"),
    CONCRETE("closure", CONCRETE_CLOSURE, "closure and fill", "8 ksi", "0.7 day", "0.98", "2 day", "1.2"),
    CONCRETE("diaphragm", CONCRETE_DIAPHRAGM, "the pier diaphragms", "5 ksi", "4 day", "0.85", "7 day", "1.2"),

    GROUP("days", "", "The calendar: each default counts from the stage before it."),
    QUANTITY("days.girder_cast", TIME, -4000, 1e5, "0 day", Bridge, days.girder_cast, "Casting of the pretensioned girders."),
    QUANTITY("days.girder_tensioned", TIME, -4000, 1e5, "", Bridge, days.girder_tensioned, "Tensioning of the strands; derived: 0.25 day before casting."),
    QUANTITY("days.phase_1_cast", TIME, -4000, 1e5, "", Bridge, days.phase_1_cast, "Casting of the panels of phase 1; derived: 20 days after the girders."),
    QUANTITY("days.phase_2_cast", TIME, -4000, 1e5, "", Bridge, days.phase_2_cast, "Casting of the panels of phase 2; derived: 3 days after phase 1."),
    QUANTITY("days.girders_ready", TIME, -4000, 1e5, "", Bridge, days.girders_ready,
        "Release of the strands (derived: 1 day after casting), or erection of steel girders (derived: with the panels)."),
    QUANTITY("days.panels_set", TIME, -4000, 1e5, "", Bridge, days.panels_set, "Panels on shims; derived: 67 days after casting phase 2."),
    QUANTITY("days.joints", TIME, -4000, 1e5, "", Bridge, days.joints, "Joints closed, the deck is one; derived: 10 days later."),
    QUANTITY("days.anchors", TIME, -4000, 1e5, "", Bridge, days.anchors, "Anchor panels grouted and hard; derived: 2 days later."),
    QUANTITY("days.ties_set", TIME, -4000, 1e5, "", Bridge, days.ties_set, "Ties through the piers effective; derived: with the panels."),
    QUANTITY("days.jacking", TIME, -4000, 1e5, "", Bridge, days.jacking, "Thrust; derived: 8 days after the anchors."),
    QUANTITY("days.lock", TIME, -4000, 1e5, "", Bridge, days.lock, "Jacks locked; derived: 0.1 day later."),
    QUANTITY("days.closure_cast", TIME, -4000, 1e5, "", Bridge, days.closure_cast, "Closure cast round the jacks; derived: 0.1 day later."),
    QUANTITY("days.closure_active", TIME, -4000, 1e5, "", Bridge, days.closure_active, "Closure has set and stiffens; derived: 1 day later."),
    QUANTITY("days.release", TIME, -4000, 1e5, "", Bridge, days.release, "Jacks released; derived: 2.8 days later."),
    QUANTITY("days.fill_cast", TIME, -4000, 1e5, "", Bridge, days.fill_cast, "Rest of the gap filled; derived: 0.2 day later."),
    QUANTITY("days.fill_active", TIME, -4000, 1e5, "", Bridge, days.fill_active, "Fill has set; derived: 1 day later."),
    QUANTITY("days.haunch", TIME, -4000, 1e5, "", Bridge, days.haunch, "Haunches and pockets grouted and hard: composite; derived: 2.8 days later."),
    QUANTITY("days.diaphragm_cast", TIME, -4000, 1e5, "", Bridge, days.diaphragm_cast, "Concrete between girder ends cast; derived: with the haunches."),
    QUANTITY("days.diaphragm_active", TIME, -4000, 1e5, "", Bridge, days.diaphragm_active, "It has set; derived: 1 day later."),
    QUANTITY("days.barrier", TIME, -4000, 1e5, "", Bridge, days.barrier, "Barriers; derived: 12 days after the haunches."),
    QUANTITY("days.overlay", TIME, -4000, 1e5, "", Bridge, days.overlay, "Overlay; derived: 10 days later."),
    QUANTITY("days.opening", TIME, -4000, 1e5, "", Bridge, days.opening, "Opening to traffic; derived: 10 days later."),
    LIST_OF("days.inspections", 12, "", Bridge, days.inspections, double, "Days between opening and end to report."),
    QUANTITY("days.inspections[]", TIME, -4000, 1e5, NULL, ListData, count, "A day of the calendar."),
    QUANTITY("days.end", TIME, -4000, 1e5, "", Bridge, days.end, "End of life; derived: 75 years (27394 days) after opening."),

    GROUP("loads", "", "Loads besides the structure's own weight."),
    QUANTITY("loads.barrier", LINE_LOAD, 0, 5e4, "0.42 kip/ft", Bridge, loads.barrier_N_per_m, "One barrier; both are shared by all girder lines alike."),
    QUANTITY("loads.barrier_width", LENGTH, 0, 2, "1.5 ft", Bridge, loads.barrier_width_m, "From the deck edge to the face of the barrier."),
    QUANTITY("loads.barrier_moment", FORCE, 0, 1e6, "none", Bridge, loads.barrier_moment_N,
        "Strength of the barrier at its foot against a vehicle, moment per length of deck (AASHTO LRFD A13.3, from memory), \"15 kip*ft/ft\"; none: that a vehicle strikes it is not proven."),
    QUANTITY("loads.barrier_pull", LINE_LOAD, 0, 1e6, "none", Bridge, loads.barrier_pull_N_per_m,
        "Pull of the struck barrier on the deck, R_w/(L_c + 2 H) of AASHTO LRFD A13.4.2 (from memory)."),
    QUANTITY("loads.overlay", AREA_LOAD, 0, 1e4, "", Bridge, loads.overlay_Pa, "Overlay; derived: 25 psf of asphalt where there is some, else nothing."),
    QUANTITY("loads.future", AREA_LOAD, 0, 1e4, "0 psf", Bridge, loads.future_Pa, "Future wearing surface, put on at opening."),
    QUANTITY("loads.construction", AREA_LOAD, 0, 1e4, "0 psf", Bridge, loads.construction_Pa, "On the deck from the grouting of the anchors to that of the haunches."),
    QUANTITY("loads.construction_wind", AREA_LOAD, 0, 1e4, "20 psf", Bridge, loads.construction_wind_Pa,
        "Wind on the edge of the deck before it is grouted (common practice, no source)."),
    QUANTITY("loads.construction_vehicle", FORCE, 0, 1e6, "none", Bridge, loads.construction_vehicle_N,
        "Heaviest vehicle on the deck before its haunches are grouted; none: not said."),

    GROUP("live", "", "Live load."),
    CHOICE("live.model", LIVE_CHOICES, "HL-93", Bridge, live.model, "HL-93, or a vehicle of given axles with a lane load."),
    QUANTITY("live.lanes_interior", NONE, 0, 4, "none", Bridge, live.lanes_interior_1,
        "Lanes on an interior girder line; none: by AASHTO LRFD 4.6.2.2."),
    QUANTITY("live.lanes_exterior", NONE, 0, 4, "none", Bridge, live.lanes_exterior_1,
        "Lanes on an exterior girder line; none: by AASHTO LRFD 4.6.2.2."),
    LIST_OF("live.axles", AXLES_MAX, "", Bridge, live.axles, AxleData, "Axles of the given vehicle in driving order."),
    QUANTITY("live.axles[].load", FORCE, 100, 1e6, NULL, AxleData, load_N, "Load of the axle."),
    QUANTITY("live.axles[].gap", LENGTH, 0.3, 30, "none", AxleData, gap_m, "To the next axle; not needed for the last."),
    QUANTITY("live.lane", LINE_LOAD, 0, 1e5, "0 kip/ft", Bridge, live.lane_N_per_m, "Lane load beside the given vehicle."),
    QUANTITY("live.impact", NONE, 0, 1, "0.33", Bridge, live.impact_1, "Dynamic allowance of the given vehicle."),

    GROUP("climate", NULL, "The site."),
    QUANTITY("climate.humidity", NONE, 0.2, 1, NULL, Bridge, climate.humidity_1, "Mean relative humidity, \"70 %\"."),
    COUNT("climate.gradient_zone", 1, 4, NULL, Bridge, climate.gradient_zone, "Zone of the temperature gradient, AASHTO LRFD 3.12.3."),
    FLAG("climate.asphalt", "no", Bridge, climate.asphalt, "Asphalt overlay: negative gradient -0.2 instead of -0.3 times the positive one."),
    QUANTITY("climate.deck_warmer", TEMPERATURE_DIFF, -30, 30, "0 delta_degF", Bridge, climate.deck_warmer_K,
        "Deck warmer than the girders when the jacks are locked; levels out before the closure is cast."),
    LIST_OF("climate.profile", GRADIENT_POINTS, "", Bridge, climate.profile, ProfileData, "Own positive gradient instead of the zone's."),
    QUANTITY("climate.profile[].depth", LENGTH, 0, 6, NULL, ProfileData, depth_m, "Below the deck top, increasing."),
    QUANTITY("climate.profile[].rise", TEMPERATURE_DIFF, -60, 60, NULL, ProfileData, rise_K, "Rise at that depth, straight between."),

    GROUP("criteria", "", "What is asked of the joints, and the limits of the other members."),
    CHOICE("criteria.set", CRITERIA_CHOICES, "US practice", Bridge, criteria.set,
        "Set of factors, limits and clauses that the other keys of this group start from; each can be set."),
    LIST_OF("criteria.joints", JOINT_RULE_COUNT, "", Bridge, criteria.joints, int,
        "Rules that the thrust must satisfy; without it: average, permanent, Service I with half the gradient, gradient without live load."),
    CHOICE("criteria.joints[]", joint_rules, NULL, ListData, count, "A rule by name."),
    QUANTITY("criteria.average", STRESS, 0, 2e7, "250 psi", Bridge, criteria.average_Pa, "Average compression after losses, AASHTO LRFD 9.7.5.3 (from memory), borrowed."),
    QUANTITY("criteria.tension", STRESS, -1e7, 5e6, "0 psi", Bridge, criteria.tension_Pa, "Tension allowed at a joint's surface, all other rules."),
    QUANTITY("criteria.deck_jacking", NONE, 0.1, 1, "0.65", Bridge, criteria.deck_jacking_1, "Deck compression at jacking over strength then, 5.9.2.3.1a (from memory)."),
    QUANTITY("criteria.deck_permanent", NONE, 0.1, 1, "0.45", Bridge, criteria.deck_permanent_1, "Deck compression, permanent, over f'c, 5.9.2.3.2a (from memory)."),
    QUANTITY("criteria.deck_service", NONE, 0.1, 1, "0.60", Bridge, criteria.deck_service_1, "Deck compression in service over f'c, 5.9.2.3.2a (from memory)."),
    QUANTITY("criteria.girder_tension", STRESS, 0, 2e7, "", Bridge, criteria.girder_tension_Pa,
        "Pretensioned girder while the jacks act; derived: 0.24 sqrt(f'c) ksi with top bars, 0.0948 sqrt(f'c) <= 0.2 ksi without, 5.9.2.3.1b (from memory)."),
    QUANTITY("criteria.girder_compression", NONE, 0.1, 1, "0.65", Bridge, criteria.girder_compression_1, "The same over f'c, 5.9.2.3.1a (from memory)."),
    QUANTITY("criteria.steel", NONE, 0.1, 1, "0.95", Bridge, criteria.steel_1, "Steel flanges while the jacks act over Fy, by analogy with 6.10.4.2 (from memory)."),
    QUANTITY("criteria.tie", NONE, 0.1, 1, "0.9", Bridge, criteria.tie_1, "Ties over yield under the factored thrust, 5.5.4.2 (from memory)."),
    QUANTITY("criteria.thrust_factor", NONE, 1, 2, "1.2", Bridge, criteria.thrust_1, "On the thrust for anchors and ties, 3.4.3.2 (from memory) by analogy."),
    QUANTITY("criteria.anchor", NONE, 0.1, 1, "0.85", Bridge, criteria.anchor_1, "Resistance factor of connectors, 6.5.4.2 (from memory)."),
    QUANTITY("criteria.bars", NONE, 0.1, 1, "0.9", Bridge, criteria.bars_1, "Resistance factor of interface shear, 5.5.4.2 (from memory)."),
    QUANTITY("criteria.bearing", NONE, 0.1, 1, "0.7", Bridge, criteria.bearing_1, "Resistance factor of bearing on concrete, 5.5.4.2 (from memory)."),
    QUANTITY("criteria.flexure", NONE, 0.1, 1, "0.9", Bridge, criteria.flexure_1, "Resistance factor of bars in bending and ties, 5.5.4.2 (from memory)."),
    QUANTITY("criteria.anchor_lever", NONE, 0.2, 1, "0.7", Bridge, criteria.anchor_tie_1,
        "Lever arm of an anchor panel as a deep beam over the smaller of spacing and panel length (common practice, no source)."),
    QUANTITY("criteria.closure", NONE, 0.1, 1, "0.45", Bridge, criteria.closure_1, "Stress of the closure at release over its strength then (common practice, no source)."),
    QUANTITY("criteria.cluster_spacing", LENGTH, 0.3, 2, "48 in", Bridge, criteria.cluster_m, "Largest spacing of pockets, 6.10.10.1.2 and 5.7.4.5 (from memory)."),
    QUANTITY("criteria.strength_dead", NONE, 0.5, 2, "1.25", Bridge, criteria.strength_dead_1, "Strength I on dead load, table 3.4.1-2 (from memory)."),
    QUANTITY("criteria.strength_wearing", NONE, 0.5, 2, "1.5", Bridge, criteria.strength_wearing_1, "Strength I on overlays, table 3.4.1-2 (from memory)."),
    QUANTITY("criteria.strength_live", NONE, 0.5, 3, "1.75", Bridge, criteria.strength_live_1, "Strength I on live load, table 3.4.1-1 (from memory)."),
    QUANTITY("criteria.fatigue_live", NONE, 0.5, 3, "1.75", Bridge, criteria.fatigue_live_1, "Fatigue I on the fatigue truck, table 3.4.1-1, 8th edition (summary of its changes in a state design guide)."),
    QUANTITY("criteria.temperature_movement", NONE, 1, 2, "1.2", Bridge, criteria.temperature_movement_1, "On uniform temperature for movements, the larger factor of table 3.4.1-1 (from memory)."),
    QUANTITY("criteria.deflection", NONE, 100, 5000, "800", Bridge, criteria.deflection_1, "Span over the deflection under live load, optional: 800, or 1000 where people walk, 2.5.2.6.2 (from memory)."),
    QUANTITY("criteria.construction_dead", NONE, 0.5, 2, "1.25", Bridge, criteria.construction_dead_1, "Weights while building, 3.4.2.1 (from memory)."),
    QUANTITY("criteria.relief", NONE, 0.5, 1, "0.9", Bridge, criteria.relief_1, "Dead load that relieves, table 3.4.1-2 (from memory)."),
    QUANTITY("criteria.locked", NONE, 0.5, 1.5, "1", Bridge, criteria.locked_1, "Moments locked in by thrust, creep and shrinkage (EL) at strength, table 3.4.1-1 (from memory)."),
    QUANTITY("criteria.locked_relief", NONE, 0, 1, "0", Bridge, criteria.locked_relief_1,
        "The same where they relieve: not counted, since they leave with the thrust when joints open (common practice, no source; the table has 1)."),
    QUANTITY("criteria.steel_flexure", NONE, 0.5, 1, "1", Bridge, criteria.steel_flexure_1, "Resistance factor of steel in bending, 6.5.4.2 (from memory)."),
    QUANTITY("criteria.steel_service", NONE, 0.5, 1, "0.95", Bridge, criteria.steel_service_1, "Flanges of the composite section under Service II over Fy, 6.10.4.2.2 (from memory)."),
    QUANTITY("criteria.steel_service_live", NONE, 0.5, 2, "1.3", Bridge, criteria.steel_service_live_1, "Service II on live load, table 3.4.1-1 (from memory)."),
    QUANTITY("criteria.girder_transfer", NONE, 0.1, 1, "0.65", Bridge, criteria.girder_transfer_1, "Pretensioned girder in compression at transfer over its strength then, 5.9.2.3.1a (from memory)."),
    QUANTITY("criteria.girder_permanent", NONE, 0.1, 1, "0.45", Bridge, criteria.girder_permanent_1, "Pretensioned girder in compression, permanent, over f'c, 5.9.2.3.2a (from memory)."),
    QUANTITY("criteria.girder_service", NONE, 0.1, 1, "0.60", Bridge, criteria.girder_service_1, "Pretensioned girder in compression in service over f'c, 5.9.2.3.2a (from memory)."),
    QUANTITY("criteria.girder_service_live", NONE, 0.1, 2, "0.8", Bridge, criteria.girder_service_live_1, "Service III on live load for tension of pretensioned girders, table 3.4.1-4 (from memory)."),
    QUANTITY("criteria.girder_gradient", NONE, 0, 1, "0.5", Bridge, criteria.girder_gradient_1, "Temperature gradient beside live load in girders, 3.4.1 (from memory)."),
    QUANTITY("criteria.girder_service_tension", STRESS, 0, 2e7, "", Bridge, criteria.girder_service_tension_Pa,
        "Tension of pretensioned girders in service; derived: 0.19 sqrt(f'c) <= 0.6 ksi, 5.9.2.3.2b (from memory)."),
    QUANTITY("criteria.prestressed", NONE, 0.5, 1, "1", Bridge, criteria.prestressed_1, "Resistance factor of tension-controlled prestressed sections, 5.5.4.2 (from memory)."),
    QUANTITY("criteria.crest", NONE, 0.05, 1, "0.5", Bridge, criteria.crest_1, "Lift of the thrust on curved panels over their weight (common practice, no source)."),
    QUANTITY("criteria.sliding", NONE, 1, 4, "1.5", Bridge, criteria.sliding_1, "Friction over the force that would move the deck before it is grouted (common practice, no source)."),
    QUANTITY("criteria.lift", LENGTH, 0, 0.1, "0.125 in", Bridge, criteria.lift_m, "Lift of the deck off its shims beside anchors and gap (common practice, no source)."),
    QUANTITY("criteria.ungrouted", TIME, 0.1, 365, "14 day", Bridge, criteria.ungrouted_day, "Longest time from jacking to grouted haunches (common practice, no source)."),
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
