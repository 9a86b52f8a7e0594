import { worksheet } from './worksheet.ts';

/**
 * A worn Ostrel 125 T with a grade A piston, read in inches by MI-3, which shows 0.001 mm too much.
 * Limits as the demo shop's sheet prints them; all figures invented. Worked out by hand: see worksheet.ts for the columns.
 */
export const ostrel125T = worksheet(`
Bore, size | 54.238 54.231 54.229 54.226 54.219 54.217 | 54.238 mm | BG | 54.2..54.21 | ..54.24 | undecided | the largest: 54.238 − 0.00365 ≤ 54.24 < 54.238 + 0.00365
Bore, out-of-round | = | 0.007 mm | BG−BG | ..0.008 | ..0.02 | within service limit | A, 54.238 − 54.231: 0.007 + 0.00497 ≤ 0.02
Bore, taper | = | 0.019 mm | BG−BG | ..0.008 | ..0.02 | undecided | across, 54.238 − 54.219: 0.019 − 0.00497 ≤ 0.02 < 0.019 + 0.00497
Piston, 17 mm above the skirt edge | 2.1306" | 54.1162 mm | MI | 54.15..54.16 | 54.12.. | past the limit | grade A, 2.1306 × 25.4 − zero 0.001: 54.11624 + 0.00251 < 54.12
Clearance, bore − piston | = | 0.1008 mm to 0.1218 mm | BG,MI | 0.045..0.065 | ..0.1 | past the limit | largest and smallest bore − piston: 0.12176 − 0.00443 > 0.1
Ring end gap, top | 0.52 0.55 | between 0.517 mm and 0.553 mm | FE | 0.25..0.4 | 0.2..0.6 | within service limit | 0.553 ≤ 0.6, 0.517 ≥ 0.2
Ring end gap, second | 0.60 0.65 | between 0.597 mm and 0.653 mm | FE | 0.25..0.4 | 0.2..0.6 | undecided | 0.597 ≤ 0.6 < 0.653
Piston pin | 14.998 14.997 14.998 | 14.997 mm | MI | 14.995..15 | 14.985.. | within service limit | the smallest: 14.997 + 0.00251 ≤ 15, 14.997 − 0.00251 ≥ 14.985
Pin bosses | 15.036 15.033 | 15.036 mm | SH | 15.001..15.01 | ..15.03 | past the limit | the largest: 15.036 − 0.00394 > 15.03
Clearance, boss − pin | = | 0.035 mm to 0.039 mm | SH,MI | 0.001..0.015 | ..0.04 | undecided | 15.033 − 14.998 and 15.036 − 14.997: 0.039 − 0.00467 ≤ 0.04 < 0.039 + 0.00467
Small end | 19.024 19.021 | 19.024 mm | SH | 19.005..19.018 | ..19.03 | within service limit | the largest: 19.024 + 0.00394 ≤ 19.03, 19.024 − 0.00394 ≥ 19.005
Big end, side clearance | 0.33 0.36 | between 0.327 mm and 0.363 mm | FE | 0.25..0.55 | ..0.8 | within standard | 0.363 ≤ 0.55, 0.327 ≥ 0.25
Big end, radial play | 1 | play felt | hand | ..0 | .. | past the limit | a hand tells play, not that it is as new
Crank runout, left | 0.012 | 0.012 mm | DI | ..0.02 | ..0.05 | within standard | 0.012 + 0.00382 ≤ 0.02
Crank runout, right | 0.048 | 0.048 mm | DI | ..0.02 | ..0.05 | undecided | 0.048 − 0.00382 ≤ 0.05 < 0.048 + 0.00382
Crank end float | 0.352 | 0.352 mm | DI | 0.05..0.2 | 0.03..0.35 | undecided | 0.352 − 0.00382 ≤ 0.35 < 0.352 + 0.00382
Head face, flatness | - 0.02 - 0.02 - 0.02 - 0.02 - 0.02 - 0.02 | between 0.00 mm and 0.022 mm | FE | ..0.03 | ..0.05 | within standard | 0.022 ≤ 0.03
Cylinder face, flatness | gauge FE-2; 0.02 0.03 0.03 0.04 0.05 0.06 0.02 0.03 0.04 0.05 - 0.02 | between 0.048 mm and 0.062 mm | FE | ..0.03 | ..0.05 | undecided | 0.048 ≤ 0.05 < 0.062
Reed petals, gap at the tip | 0.28 0.30 0.30 0.33 | between 0.297 mm and 0.333 mm | FE | ..0.1 | ..0.4 | within service limit | 0.333 ≤ 0.4
Compression, cranking | 1010 | 1010 kPa | CG | 950..1300 | 820.. | within standard | 1010 + 23.67 ≤ 1300, 1010 − 23.67 ≥ 950
Crankcase leak-down | 9.5 | 9.5 % | LD | ..3 | ..8 | past the limit | 9.5 − 1.09966 > 8
`);
