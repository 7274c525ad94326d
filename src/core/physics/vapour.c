/* SPDX-License-Identifier: MIT */
#include "core/physics/vapour.h"

#include <math.h>

#define LOWEST  233.15
#define HIGHEST 647.096

double tc_saturation_pressure(double temperature)
{
    if (!(temperature >= LOWEST && temperature <= HIGHEST))
        return NAN;
    /* n1 to n10 of IAPWS-IF97, table 34; the equation is in MPa. */
    double t = temperature - 0.23855557567849 / (temperature - 0.65017534844798e3);
    double a = (t + 0.11670521452767e4) * t - 0.72421316703206e6;
    double b = (-0.17073846940092e2 * t + 0.12020824702470e5) * t - 0.32325550322333e7;
    double c = (0.14915108613530e2 * t - 0.48232657361591e4) * t + 0.40511340542057e6;
    double root = 2 * c / (sqrt(b * b - 4 * a * c) - b);
    double square = root * root;
    return 1e6 * square * square;
}

double tc_saturation_slope(double temperature)
{
    const double reach = 0.25;
    return (tc_saturation_pressure(temperature + reach) - tc_saturation_pressure(temperature - reach)) /
           (2 * reach);
}

double tc_latent_heat(double temperature)
{
    return 2501e3 - 2361 * (temperature - TC_ZERO_CELSIUS);
}

double tc_evaporation_conductance(double area, double activity)
{
    return 0.089 * activity * area;
}
