/* thrust: the thrust that keeps every joint closed, and the window that the limits leave. Runs the
 * stages, asks traffic, judges by the rules of the line.
 *
 * Stress is affine in the thrust while contact and slip keep their pattern: the answer is predicted
 * from two runs and verified, and where needed corrected, by a run at the answer itself. */
#ifndef CLENCH_THRUST_H
#define CLENCH_THRUST_H

#include "clench/bridge.h"

/* Where and when something governs. */
typedef struct Governing {
    int joint;               /* -1: a station that is no joint */
    int station, side, time; /* time: index of the histories */
    bool top;
    double day;
    double permanent_Pa, live_Pa, gradient_Pa, wheel_Pa; /* factored parts, at that thrust */
    double demand, limit; /* unit: Pa, or N for forces; of the thrust that is named beside */
} Governing;

typedef struct RuleAnswer {
    double need_N;  /* line thrust; 0 where none is needed */
    double most_N;  /* thrust beyond which a joint opens again; INFINITY where never */
    bool reachable; /* false: no thrust closes it, it opens further as the thrust grows */
    Governing at;   /* at need_N */
} RuleAnswer;

typedef struct LimitAnswer {
    double most_N; /* line thrust at which the limit is reached; INFINITY where never */
    double
        least_N;  /* line thrust below which a place that the thrust relieves passes it; 0: none */
    Governing at; /* at most_N */
} LimitAnswer;

/* What became of the compression at one joint, by cause; tension positive. Sums to the state. */
typedef struct Split {
    int joint, side, time;
    double mean_Pa[CAUSE_COUNT], top_Pa[CAUSE_COUNT], bottom_Pa[CAUSE_COUNT];
    double mean_total_Pa, top_total_Pa, bottom_total_Pa;
} Split;

/* Live load (lanes of the line and impact in, factors of rules not in) and gradient at a joint. */
typedef struct JointLoad {
    bool there;
    double live_top_max_Pa, live_top_min_Pa, live_bottom_max_Pa, live_bottom_min_Pa;
    double cold_top_Pa, cold_bottom_Pa, warm_top_Pa, warm_bottom_Pa;
} JointLoad;

enum { RULES_MAX = 16, LIMITS_MAX = 16 };

/* Time indices of the line's named moments. */
typedef struct Moments {
    int jacked, bonded, opening, end;
} Moments;

typedef struct LineAnswer {
    const BridgeLine *line;
    const StageHistory *history; /* at thrust_N */
    Moments moments;             /* of the history */
    /* Of the history, from jacking to the end of life, where many looks want it (thrust_joint_stress);
     * NULL: read off the history. */
    const FibreStress *joint_stress;
    double thrust_N;               /* of this line when the whole deck has the answer's thrust */
    RuleAnswer rule[RULES_MAX];    /* as line->rule */
    LimitAnswer limit[LIMITS_MAX]; /* as line->limit */
    double need_N, most_N;         /* largest need of the rules that count, smallest limit */
    double least_N;                /* least thrust that limits ask for, to relieve; 0: none */
    int need_rule, most_limit;     /* -1 where none */
    int most_rule;  /* the rule that is most_N's, where no limit is smaller; else -1 */
    bool reachable; /* all rules that count can be met by some thrust */
    /* [joint * 2 + (side > 0)]: structure at opening and at the end of life */
    const JointLoad *open, *end;
    Split jacked, opening, finish; /* at the joint and side that govern the need */
    double gap_movement_m;         /* largest opening of a gap when jacked */
    double anchor_force_N;         /* largest that arrives at an anchor's inner face, jacked */
    /* Permanent stress of the strip beside the closure at the end of life, in the middle of the gap:
     * it starts without compression and is not judged. NAN: the closure is all. */
    double fill_top_Pa, fill_bottom_Pa;
    double average_Pa; /* thrust over the panel's area, compression positive */
} LineAnswer;

typedef struct ThrustAnswer {
    int line_count;
    LineAnswer line[LINES_MAX];
    double thrust_N; /* whole deck: the given one, else the needed one */
    bool given;
    double need_N, most_N;             /* whole deck, shared by tributary width */
    double least_N;                    /* whole deck: what limits ask for, to relieve; 0: none */
    double need_stiff_N, most_stiff_N; /* the other bound: shared by the stiffness of the lines */
    int governing_line, limiting_line; /* -1 where none */
    bool reachable, window;            /* window: need <= most and reachable */
    bool met;                          /* thrust_N lies in the window */
    bool verified;                     /* the need was met by a run at it, not only predicted */
    int runs;                          /* histories computed */
    double affine_error_1; /* prediction of the need from two runs against the verified one */
} ThrustAnswer;

typedef struct ThrustWish {
    double given_N; /* whole deck; 0: find the needed one */
    StageSettings settings;
} ThrustWish;

/* ---- live load on a line at one moment ---- */

/* The structure of that moment with what influence lines need; lives in the arena. */
typedef struct LiveLines LiveLines;
/* Largest and smallest effect of one lane, impact in; most >= 0 >= least. Lanes on the line, presence
 * and load factors are the caller's. unit: of the effect (Pa, N m, N). */
typedef struct LiveRange {
    double most, least; /* unit: of the effect */
} LiveRange;
MUST_USE Status live_lines(const BridgeLine *line, const StageHistory *history, int time,
                           Arena *arena, LiveLines **lines, Error *err);
/* The same where parts that carry in compression only stand as under that load on all spans. */
MUST_USE Status live_lines_under(const BridgeLine *line, const StageHistory *history, int time,
                                 double live_N_per_m, Arena *arena, LiveLines **lines, Error *err);
const StageStructure *live_structure(const LiveLines *lines);
/* Fibre stresses, Pa, at most 4 at once; done[k] is false where no part is there. The two-truck rule
 * is tried between contraflexure points with the sign of negative moment. */
void live_stress(LiveLines *lines, const LiveLoad *load, const StageEffect *effect, int count,
                 LiveRange *range, bool *done);
/* What a line is of, besides stresses. */
typedef enum LiveKind {
    LIVE_REACTION, /* upward, of support `at`; N */
    LIVE_MOMENT,   /* of the whole cross-section at station `at`; N m */
    LIVE_SHEAR,    /* likewise just beside it on `side`; N */
    LIVE_DECK, /* normal force of the deck in element `to` less that in element `at`; none before
                    * element 0 and behind the last: what the links between their middles transfer; N */
    LIVE_PART, /* normal force of part `at`, such as a tie; N */
} LiveKind;
typedef struct LiveEffect {
    LiveKind kind;
    int at, to, side;
} LiveEffect;
/* Influence line of it, value[station_count]; false: it carries nothing at that moment. */
bool live_line(LiveLines *lines, const LiveEffect *effect,
               double *value); /* unit: of the effect, per newton */
/* Both extremes on its line; the two-truck rule for moments between contraflexure points and for
 * reactions of interior piers. */
LiveRange live_range(LiveLines *lines, const LiveLoad *load, const LiveEffect *effect,
                     const double *value); /* unit: of the effect, per newton */
/* Moment (N m) and shear (N) of the whole cross-section, from the reactions by statics: supports that
 * hold along the bridge at two places are taken to carry nothing along it. */
LiveRange live_moment(LiveLines *lines, const LiveLoad *load, int station);
LiveRange live_shear(LiveLines *lines, const LiveLoad *load, int station, int side);
/* Upward reaction (N) of a support; false: it carries nothing at that moment. */
bool live_reaction(LiveLines *lines, const LiveLoad *load, int support, LiveRange *range);

/* ---- how a stress of live load or gradient comes about: for those who recompute it ---- */

/* An axle of the governing position of one lane, with what a newton there does: to the effect; of a
 * fibre's stress also to N and M of its part about the part's own centroid, and to the moment of the
 * whole cross-section (by statics, as live_moment). */
typedef struct LiveAxle {
    double x_m, load_N;
    double ordinate;            /* unit: of the effect, per newton */
    double N_1, M_m, section_m; /* unit: none; m */
} LiveAxle;
/* The effect is vehicle_1 times the sum over the axles, plus lane_1 times the lane load times the
 * integral of the line over the loaded lengths. What is of a fibre alone is 0 for other effects: its
 * stress is N / A + M y / I of the part, with N and M = vehicle_1 times the sum over the
 * axles, plus lane_1 times the lane load times the integral of the line over the loaded lengths. */
typedef struct LiveWorking {
    const char *vehicle; /* NULL: no axle adds to the effect */
    bool train;          /* two of them, with their factor */
    bool fibre;          /* of a fibre's stress, else of `kind` */
    LiveKind kind;
    int axle_count;
    LiveAxle axle[2 * AXLES_MAX];
    double lane_N_per_m, lane_length_m;
    double lane_area;                            /* unit: of the effect times m, per newton */
    double lane_N_m, lane_M_m2, lane_section_m2; /* integrals of the others */
    double vehicle_1, lane_1;                    /* impact and train factor; train factor */
    double value;                                /* unit: of the effect */
    double N_N, M_Nm, section_Nm;
    double area_m2, inertia_m4, y_m; /* the part's section; y downwards */
    double E_Pa;                     /* its modulus that day */
    /* Girder and deck as one plane section of the moduli of that day, strands apart: modulus of the
     * part over the girder's, second moment of area in girder material, fibre below the common
     * centroid. whole_inertia_m4 0: no girder or no deck is there. */
    double modular_1, whole_inertia_m4, whole_y_m;
} LiveWorking;
/* One lane, sign +1: largest, -1: smallest stress; as live_stress. false: no part is there. */
bool live_working(LiveLines *lines, const LiveLoad *load, const StageEffect *effect, int sign,
                  LiveWorking *working);
/* The same of another effect; as live_range. */
bool live_effect_working(LiveLines *lines, const LiveLoad *load, const LiveEffect *effect, int sign,
                         LiveWorking *working);

/* A piece of a part's depth where width b and rise T are straight: with B1 to T2 at its top and bottom and y
 * of its top below the part's centroid, the integral of b T is h (2 B1 T1 + B1 T2 + B2 T1 + 2 B2 T2)/6, that
 * of b T y is y times it plus h^2 (B1 T1 + B1 T2 + B2 T1 + 3 B2 T2)/12. */
typedef struct WarmLayer {
    double y_m, height_m, top_width_m, bottom_width_m, top_K, bottom_K;
    double sum_K_m2, moment_K_m3; /* both integrals */
} WarmLayer;
enum { WARM_LAYERS_MAX = WIDTH_POINTS + GRADIENT_POINTS };
/* Stress of a fibre by a gradient: N / A + M y / I + E alpha (mean + slope y - rise). */
typedef struct GradientWorking {
    double N_N, M_Nm, area_m2, inertia_m4, y_m, E_Pa, expansion_per_K;
    double rise_K;                /* at the fibre */
    double mean_K, slope_K_per_m; /* the plane that fits best the rise over the part */
    /* The layers that are warmer or colder, from the top; the mean is the sum of their integrals over the
     * area, the slope that of their moments over the second moment. 0 layers of a part without widths: the
     * mean is the rise at its centroid. */
    bool widths;
    int layer_count;
    WarmLayer layer[WARM_LAYERS_MAX];
    double stress_Pa;
} GradientWorking;
/* false: no part is there. `scratch` is used and reset. */
bool live_gradient(const LiveLines *lines, const Gradient *gradient, const StageEffect *effect,
                   Arena *scratch, GradientWorking *working);

/* ---- vertical movement of the girder under live load ---- */

typedef struct LiveMove LiveMove; /* in the arena */
/* The structure of that moment without what carries in compression only (diaphragm concrete at tied
 * piers): never too stiff. */
MUST_USE Status live_move_start(const BridgeLine *line, const StageHistory *history, int time,
                                Arena *arena, LiveMove **move, Error *err);
/* Influence line of the downward movement of the girder at a station, value[station_count]: bending, and
 * shear of the girder alone, which is also in shear[station_count]. Shear by virtual work with the
 * forces of the structure that only bends: exact for simple spans, else a little too much for a load at
 * the station itself (law: least complementary energy). false: no girder there. */
bool live_move(const LiveMove *move, int station, double *value_m_per_N, double *shear_m_per_N);

/* Line thrust t, whole thrust T = t / share: the largest need over the lines, the smallest limit.
 * Results live in `result`; `scratch` is used and reset. */
MUST_USE Status thrust_find(const BridgeLine *line, int line_count, const ThrustWish *wish,
                            Arena *result, Arena *scratch, const ThrustAnswer **answer, Error *err);

/* One life of a line at one thrust, without a search: history (without causes), loads and rules, for
 * thrust_margin_Pa and the like. The need comes from that run and one 15 % higher: exact while slip and contact
 * keep their pattern; INFINITY where no thrust closes the joints. Limits, splits and the rest are not
 * there. Lives in `arena`; `scratch` is another one, used and reset. */
MUST_USE Status thrust_life(const BridgeLine *line, double thrust_N, const StageSettings *settings,
                            Arena *arena, Arena *scratch, LineAnswer *answer, Error *err);

/* ---- the same deck at another thrust, without looking for need and limits again ---- */

/* A line's stages up to its first jacking, which every thrust shares. Lives in `arena`. */
typedef struct ThrustStart ThrustStart;
MUST_USE Status thrust_start(const BridgeLine *line, const StageSettings *settings, Arena *arena,
                             Arena *scratch, const ThrustStart **start, Error *err);
/* What thrust_find gives for `whole_N` as the given thrust, from what it found before for the same
 * lines: start[line] of each. Need, limits, live load and gradient are those of `from`, histories are run
 * with the settings of the starts. Lives in `result`, beside `from`; `scratch` is used and reset. */
MUST_USE Status thrust_again(const ThrustAnswer *from, const ThrustStart *const *start,
                             double whole_N, Arena *result, Arena *scratch,
                             const ThrustAnswer **answer, Error *err);
/* A line without jacks, one of the other ways to connect the panels: its stages run once, with all that its
 * joints are judged by; `rule`, `limit`, need and most stay empty. average_Pa is the caller's: what a
 * joint may be off its limit is measured by it. An answer of the same line with other tendons keeps its
 * live load and gradient where they cannot have changed; a new one starts as {0}. */
MUST_USE Status thrust_follow(const BridgeLine *line, const StageSettings *settings,
                              double average_Pa, Arena *result, Arena *scratch, LineAnswer *answer,
                              Error *err);
/* What the answer says of its history besides rules and limits: gap, anchors, fill, splits. */
void thrust_describe(LineAnswer *answer);
/* thrust_N lies in the window, to the accuracy that the need is found with. */
bool thrust_met(const ThrustAnswer *answer);
/* Of the jacked compression at a joint, by cause, at a time of the answer's history. */
Split thrust_split(const LineAnswer *answer, int joint, int side, int time);

/* The deck's stress at all joints of a history, read off once from jacking to the end of life:
 * [(2 * joint + (side > 0)) * time_count + time]; N_N is NAN where no deck is or the side is not judged. */
const FibreStress *thrust_joint_stress(const BridgeLine *line, const StageHistory *history,
                                       const Moments *moments, Arena *arena);
/* How the joints of a line stand by the rules that count; the answer has its table of joint_stress. A joint counts as open where
 * it passes its limit by more than the need is found with: 1e-4 of the average stress. `scratch` is
 * used and reset. */
typedef struct JointsStanding {
    int rule;        /* of `worst`; -1: no rule counts */
    Governing worst; /* nearest to its limit, or farthest beyond it */
    int first_rule;  /* of `first`; -1: all stay closed */
    Governing first; /* the first to open, as the deck ages */
    int open_count;  /* joints open at some time */
    int fibre_count; /* fibres, sides and times looked at */
} JointsStanding;
JointsStanding thrust_standing(const LineAnswer *answer, Arena *scratch);
/* Stress at a joint from one side, from the table where it has it. false where no deck is. */
bool thrust_stress(const LineAnswer *answer, int joint, int side, int time, FibreStress *stress);

/* Permanent stress and the rule's factored loads at one joint, fibre and time of the answer's
 * history; demand - limit > 0 opens. false where no deck is there. */
bool thrust_judge(const LineAnswer *answer, int rule, int joint, int side, bool top, int time,
                  Governing *at);
/* Loads between opening (0) and the end of life (1) are taken straight in this share. */
double thrust_share_of_end(const LineAnswer *answer, int time); /* unit: none */
/* What is left to the limits at a joint and time: the worst of the rules that count and are judged then,
 * both sides and fibres; before opening also of the fibres' own compression. Negative: a limit is passed,
 * or a fibre is in tension. `rule`, where not NULL: which, -1 a fibre before opening. NAN without deck. */
double thrust_margin_Pa(const LineAnswer *answer, int joint, int time, int *rule);
/* The side from which a joint is judged: 0 both. At a face of the gap it is the panel's, at the inner
 * face of an anchor panel the run's: beyond it the thrust is already on its way into the girder. */
int thrust_joint_side(const BridgeLine *line, int joint);
/* The station where a joint's stress is taken, from the left (side -1) and from the right: of a joint
 * that has a width its two faces, else the same. */
int thrust_joint_station(const BridgeLine *line, int joint);
int thrust_joint_face(const BridgeLine *line, int joint, int side);
/* First and last time index in service (opening, end of life). */
int thrust_time_open(const LineAnswer *answer);
int thrust_time_end(const LineAnswer *answer);

#endif
