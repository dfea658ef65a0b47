/* The package: concrete by EN 1992-1-1 worked out at one age. */
#include "document.h"

static const char strength[] = "EN 1992-1-1 3.1.2 (from memory)";
static const char modulus[] = "EN 1992-1-1 table 3.1, (3.5) (from memory)";
static const char annex[] = "EN 1992-1-1 Annex B.1 (from memory)";
static const char shrink[] = "EN 1992-1-1 3.1.4(6), Annex B.2 (from memory)";
static const char file[] = "inputs, defaults";

/* s, and alpha_ds1 and alpha_ds2 of the cement: EN 1992-1-1 3.1.2(6) and B.2(1) (from memory). */
static const double of_cement[][3] = {
    [CEMENT_SLOW] = {0.38, 3, 0.13},
    [CEMENT_NORMAL] = {0.25, 4, 0.12},
    [CEMENT_RAPID] = {0.20, 6, 0.11},
};

static void write_strength(Sheet *s, const ConcreteMix *mix)
{
    const double fcm_Pa = mix->fcm_Pa > 0 ? mix->fcm_Pa : mix->fc28_Pa + 8e6;
    sheet_given_from(s, "f_ck", mix->fc28_Pa, "MPa", "characteristic strength", file);
    sheet_given_from(s, "f_cm", fcm_Pa, "MPa", "mean strength; 8 MPa more if open", file);
    sheet_given_from(s, "s", of_cement[mix->cement][0], "", "of the cement", strength);
    sheet_empirical(s, "b_t", "exp(s (1 - sqrt(28 / t)))", "", "growth then", strength);
    sheet_empirical(s, "b_i", "exp(s (1 - sqrt(28 / t_i)))", "", "growth when loaded", strength);
    sheet_formula(s, "f_t", "min(f_ck, max(b_t f_cm - (f_cm - f_ck), b_t f_cm / 2))", "MPa",
                  "strength then", strength);
    sheet_empirical(s, "E_t", "22000 (b_t f_cm / 10)^0.3", "MPa", "modulus then", modulus);
    sheet_empirical(s, "E_i", "22000 (b_i f_cm / 10)^0.3", "MPa", "modulus when loaded", modulus);
    sheet_empirical(s, "E_c", "1.05 * 22000 (f_cm / 10)^0.3", "MPa", "tangent modulus at 28 days",
                    "EN 1992-1-1 3.1.4(2) (from memory)");
    if (!(mix->modulus28_Pa > 0)) return;
    sheet_given_from(s, "E_28", mix->modulus28_Pa, "MPa", "measured at 28 days", file);
    sheet_formula(s, "m_E", "1.05 E_28 / E_c", "", "measured over the formula's", "closed form");
    sheet_formula(s, "E_t", "m_E E_t", "MPa", "modulus then, so", modulus);
    sheet_formula(s, "E_i", "m_E E_i", "MPa", "modulus when loaded, so", modulus);
    sheet_formula(s, "E_c", "m_E E_c", "MPa", "tangent modulus, so", modulus);
}

static void write_creep(Sheet *s, const ConcreteMix *mix)
{
    static const char *const loaded[] = {[CEMENT_SLOW] = "max(t_i / (9 / (2 + t_i^1.2) + 1), 0.5)",
                                         [CEMENT_NORMAL] = "max(t_i, 0.5)",
                                         [CEMENT_RAPID] = "max(t_i (9 / (2 + t_i^1.2) + 1), 0.5)"};
    sheet_given_from(s, "h_0", 2 * mix->volume_to_surface_m, "mm", "notional size", file);
    sheet_given_from(s, "H", 100 * mix->humidity_ratio, "", "humidity, per cent", file);
    sheet_empirical(s, "t_0", loaded[mix->cement], "day", "age at loading, by the cement", annex);
    sheet_empirical(s, "a_1", "min((35 / f_cm)^0.7, 1)", "", "strength", annex);
    sheet_empirical(s, "a_2", "min((35 / f_cm)^0.2, 1)", "", "strength", annex);
    sheet_empirical(s, "a_3", "min(sqrt(35 / f_cm), 1)", "", "strength", annex);
    sheet_empirical(s, "p_H", "(1 + a_1 (1 - H / 100) / (0.1 h_0^(1 / 3))) a_2", "", "humidity",
                    annex);
    sheet_empirical(s, "beta_H", "min(1.5 (1 + (0.012 H)^18) h_0 + 250 a_3, 1500 a_3)", "day",
                    "half time", annex);
    sheet_empirical(s, "phi_0", "p_H * 16.8 / sqrt(f_cm) / (0.1 + t_0^0.2)", "",
                    "notional creep coefficient", annex);
    sheet_given_from(s, "m_c", mix->creep_factor_1, "", "measured creep over the formula's", file);
    sheet_formula(s, "phi_c", "m_c phi_0 ((t - t_i) / (beta_H + t - t_i))^0.3", "",
                  "creep coefficient, to the tangent modulus", annex);
    sheet_formula(s, "J", "1 / E_i + phi_c / E_c", "1/MPa", "strain by a unit stress", annex);
    sheet_formula(s, "phi", "J E_i - 1", "", "as the table has it", "closed form");
}

static void write_shrinkage(Sheet *s, const ConcreteMix *mix)
{
    sheet_given_from(s, "m_s", mix->shrinkage_factor_1, "", "measured shrinkage, likewise", file);
    sheet_empirical(s, "e_ca", "2.5e-6 * (1 - exp(-0.2 sqrt(t))) max(f_ck - 10, 0)", "",
                    "autogenous shrinkage", shrink);
    if (!(sheet_value(s, "t") > sheet_value(s, "t_e"))) {
        sheet_formula(s, "e_sh", "m_s e_ca", "", "shrinkage, shortening", shrink);
        return;
    }
    sheet_given_from(s, "a_d", of_cement[mix->cement][1], "", "of the cement", shrink);
    sheet_given_from(s, "a_s", of_cement[mix->cement][2], "", "of the cement", shrink);
    sheet_empirical(s, "e_0",
                    "0.85 * 1.55e-6 * (220 + 110 a_d) exp(-a_s f_cm / 10) * (1 - (H / 100)^3)", "",
                    "notional drying shrinkage", shrink);
    sheet_empirical(s, "k_h",
                    "if(h_0 <= 100, 1, if(h_0 <= 200, 1 - 0.15 (h_0 - 100) / 100, if(h_0 <= 300, "
                    "0.85 - 0.1 (h_0 - 200) / 100, if(h_0 <= 500, 0.75 - 0.05 (h_0 - 300) / 200, "
                    "0.7))))",
                    "", "size, table 3.3", shrink);
    sheet_empirical(s, "e_sh", "m_s (e_ca + k_h e_0 (t - t_e) / (t - t_e + 0.04 * h_0^1.5))", "",
                    "shrinkage, shortening", shrink);
}

void package_time_en(Sheet *s, const ConcreteMix *mix)
{
    write_strength(s, mix);
    write_creep(s, mix);
    write_shrinkage(s, mix);
}
