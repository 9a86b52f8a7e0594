import { worksheet } from './worksheet.ts';

/**
 * A worn Torvik 615 bored and fitted to +0.25: the first reading 25.4 times off, cams by MI-2, out of date and 0.002 mm off.
 * Limits as the demo shop's sheet prints them; all figures invented. Worked out by hand: see worksheet.ts for the columns.
 */
export const torvik615 = worksheet(`
Bore, size | 3.8729 kept, as in; 98.365 98.340 98.335 98.310 98.306 | 98.3717 mm | BG | 98.25..98.265 | ..98.35 | past the limit | the largest: 98.37166 − 0.00365 > 98.35
Bore, out-of-round | = | 0.0657 mm | BG−BG | ..0.01 | ..0.03 | past the limit | 98.37166 across − 98.306 along: 0.06566 − 0.00497 > 0.03
Bore, taper | = | 0.0617 mm | BG−BG | ..0.01 | ..0.03 | past the limit | 98.37166 at the top − 98.31 at the bottom: 0.06166 − 0.00497 > 0.03
Piston, 14 mm above the skirt edge | 98.155 again; undo; 98.150 | 98.150 mm | MI | 98.19..98.21 | 98.13.. | within service limit | +0.25: 98.150 + 0.00251 ≤ 98.21, 98.150 − 0.00251 ≥ 98.13
Clearance, bore − piston | = | 0.156 mm to 0.2217 mm | BG,MI | 0.045..0.075 | ..0.15 | past the limit | 98.37166 − 98.150 and 98.306 − 98.150: 0.22166 − 0.00443 > 0.15
Ring end gap, top | 0.80 0.90 | between 0.797 mm and 0.903 mm | FE | 0.35..0.5 | 0.3..0.8 | undecided | 0.797 ≤ 0.8 < 0.903
Ring end gap, second | 1.00 - | 0.997 mm or more | FE | 0.45..0.6 | 0.4..0.9 | past the limit | 0.997 > 0.9
Ring end gap, upper oil rail | 0.55 0.60 | between 0.547 mm and 0.603 mm | FE | 0.2..0.7 | ..1 | within standard | 0.603 ≤ 0.7, 0.547 ≥ 0.2
Ring end gap, lower oil rail | 0.75 0.80 | between 0.747 mm and 0.803 mm | FE | 0.2..0.7 | ..1 | within service limit | 0.803 ≤ 1, 0.747 ≥ 0.2
Ring side clearance, top | 0.06 0.07 0.06 0.07 | between 0.058 mm and 0.072 mm | FE | 0.02..0.07 | ..0.12 | within service limit | 0.072 ≤ 0.12, 0.058 ≥ 0.02
Ring side clearance, second | 0.02 0.03 0.03 0.04 | 0.018 mm to 0.042 mm | FE | 0.02..0.06 | ..0.11 | undecided | 0.018 < 0.02 ≤ 0.032
Piston pin | 21.983 21.979 21.984 | 21.979 mm | MI | 21.994..22 | 21.98.. | undecided | the smallest: 21.979 − 0.00251 < 21.98 ≤ 21.979 + 0.00251
Pin bosses | 22.046 22.041 | 22.046 mm | SH | 22.002..22.012 | ..22.04 | past the limit | the largest: 22.046 − 0.00394 > 22.04
Clearance, boss − pin | = | 0.057 mm to 0.067 mm | SH,MI | 0.002..0.018 | ..0.05 | past the limit | 22.041 − 21.984 and 22.046 − 21.979: 0.067 − 0.00467 > 0.05
Small end | 22.020 22.018 | 22.020 mm | SH | 22.01..22.025 | ..22.05 | within standard | the largest: 22.020 + 0.00394 ≤ 22.025, 22.020 − 0.00394 ≥ 22.01
Clearance, small end − pin | = | 0.034 mm to 0.041 mm | SH,MI | 0.01..0.031 | ..0.06 | within service limit | 22.018 − 21.984 and 22.020 − 21.979: 0.041 + 0.00467 ≤ 0.06, 0.034 − 0.00467 ≥ 0.01
Big end, side clearance | 0.30 0.33 | between 0.297 mm and 0.333 mm | FE | 0.15..0.45 | ..0.7 | within standard | 0.333 ≤ 0.45, 0.297 ≥ 0.15
Big end, radial play | 0 | no play felt | hand | ..0 | .. | within service limit | a hand tells play, not that it is as new
Crank runout, left | 0.011 | 0.011 mm | DI | ..0.03 | ..0.05 | within standard | 0.011 + 0.00382 ≤ 0.03
Crank runout, right | 0.029 | 0.029 mm | DI | ..0.03 | ..0.05 | within service limit | 0.029 + 0.00382 ≤ 0.05
Crank end float | 0.511 | 0.511 mm | DI | 0.1..0.3 | 0.05..0.5 | past the limit | 0.511 − 0.00382 > 0.5
Head face, flatness | 0.05 0.06 0.08 0.10 0.04 0.05 0.03 0.04 0.06 0.07 0.05 0.06 | between 0.078 mm and 0.102 mm | FE | ..0.03 | ..0.05 | past the limit | 0.078 > 0.05
Cylinder face, flatness | - 0.02 0.02 0.03 0.03 0.04 - 0.02 0.02 0.03 - 0.02 | between 0.028 mm and 0.042 mm | FE | ..0.03 | ..0.05 | within service limit | 0.042 ≤ 0.05
Head height, face to cover face | 103.70 103.72 | 103.70 mm | CA | 103.95..104.05 | 103.75.. | past the limit | the smallest: 103.70 + 0.02367 < 103.75
Guide, intake left | 6.552 6.549 6.555 | 6.555 mm | SH | 6.52..6.532 | ..6.56 | within service limit | the largest: 6.555 + 0.00394 ≤ 6.56, 6.555 − 0.00394 ≥ 6.52
Stem, intake left | 6.474 6.475 6.473 6.474 6.473 6.475 | 6.473 mm | MI | 6.485..6.5 | 6.47.. | within service limit | the smallest: 6.473 + 0.00251 ≤ 6.5, 6.473 − 0.00251 ≥ 6.47
Stem clearance, intake left | = | 0.074 mm to 0.082 mm | SH,MI | 0.02..0.047 | ..0.08 | undecided | 6.549 − 6.475 and 6.555 − 6.473: 0.082 − 0.00467 ≤ 0.08 < 0.082 + 0.00467
Stem runout, intake left | 0.020 | 0.020 mm | DI | ..0.01 | ..0.05 | within service limit | 0.020 + 0.00382 ≤ 0.05
Seat contact width, intake left | 1.40 | 1.40 mm | CA | 0.9..1.1 | ..1.6 | within service limit | 1.40 + 0.02367 ≤ 1.6, 1.40 − 0.02367 ≥ 0.9
Lash, intake left | 0.10 0.11 | between 0.098 mm and 0.112 mm | FE | 0.08..0.12 | 0.05..0.15 | within standard | 0.112 ≤ 0.12, 0.098 ≥ 0.08
Guide, intake right | 6.566 6.561 6.568 | 6.568 mm | SH | 6.52..6.532 | ..6.56 | past the limit | the largest: 6.568 − 0.00394 > 6.56
Stem, intake right | 6.495 6.494 6.493 6.494 6.492 6.493 | 6.492 mm | MI | 6.485..6.5 | 6.47.. | within standard | the smallest: 6.492 + 0.00251 ≤ 6.5, 6.492 − 0.00251 ≥ 6.485
Stem clearance, intake right | = | 0.066 mm to 0.076 mm | SH,MI | 0.02..0.047 | ..0.08 | undecided | 6.561 − 6.495 and 6.568 − 6.492: 0.076 − 0.00467 ≤ 0.08 < 0.076 + 0.00467
Stem runout, intake right | 0.003 | 0.003 mm | DI | ..0.01 | ..0.05 | within standard | 0.003 + 0.00382 ≤ 0.01
Seat contact width, intake right | 1.66 | 1.66 mm | CA | 0.9..1.1 | ..1.6 | past the limit | 1.66 − 0.02367 > 1.6
Lash, intake right | 0.05 0.06 | between 0.048 mm and 0.062 mm | FE | 0.08..0.12 | 0.05..0.15 | undecided | 0.048 < 0.05 ≤ 0.062
Guide, exhaust left | 6.525 6.524 6.526 | 6.526 mm | SH | 6.52..6.532 | ..6.56 | within standard | the largest: 6.526 + 0.00394 ≤ 6.532, 6.526 − 0.00394 ≥ 6.52
Stem, exhaust left | 6.465 6.464 6.461 6.462 6.460 6.461 | 6.460 mm | MI | 6.485..6.5 | 6.47.. | past the limit | the smallest: 6.460 + 0.00251 < 6.47
Stem clearance, exhaust left | = | 0.059 mm to 0.066 mm | SH,MI | 0.02..0.047 | ..0.08 | within service limit | 6.524 − 6.465 and 6.526 − 6.460: 0.066 + 0.00467 ≤ 0.08, 0.059 − 0.00467 ≥ 0.02
Stem runout, exhaust left | 0.053 | 0.053 mm | DI | ..0.01 | ..0.05 | undecided | 0.053 − 0.00382 ≤ 0.05 < 0.053 + 0.00382
Seat contact width, exhaust left | 0.88 | 0.88 mm | CA | 0.9..1.1 | ..1.6 | undecided | 0.88 − 0.02367 < 0.9 ≤ 0.88 + 0.02367
Lash, exhaust left | 0.22 0.25 | between 0.217 mm and 0.253 mm | FE | 0.13..0.17 | 0.1..0.2 | past the limit | 0.217 > 0.2
Guide, exhaust right | 6.559 6.557 6.558 | 6.559 mm | SH | 6.52..6.532 | ..6.56 | undecided | the largest: 6.559 − 0.00394 ≤ 6.56 < 6.559 + 0.00394
Stem, exhaust right | 6.488 6.487 6.489 6.488 6.488 6.489 | 6.487 mm | MI | 6.485..6.5 | 6.47.. | within service limit | the smallest: 6.487 + 0.00251 ≤ 6.5, 6.487 − 0.00251 ≥ 6.47
Stem clearance, exhaust right | = | 0.068 mm to 0.072 mm | SH,MI | 0.02..0.047 | ..0.08 | within service limit | 6.557 − 6.489 and 6.559 − 6.487: 0.072 + 0.00467 ≤ 0.08, 0.068 − 0.00467 ≥ 0.02
Stem runout, exhaust right | 0.007 | 0.007 mm | DI | ..0.01 | ..0.05 | within service limit | 0.007 + 0.00382 ≤ 0.05
Seat contact width, exhaust right | 1.08 | 1.08 mm | CA | 0.9..1.1 | ..1.6 | within service limit | 1.08 + 0.02367 ≤ 1.6, 1.08 − 0.02367 ≥ 0.9
Lash, exhaust right | 0.12 0.13 | between 0.118 mm and 0.132 mm | FE | 0.13..0.17 | 0.1..0.2 | within service limit | 0.132 ≤ 0.2, 0.118 ≥ 0.1
Valve springs, free length, intake | 43.42 43.70 | 43.42 mm | CA | 44.6.. | 43.4.. | undecided | the smallest: 43.42 − 0.02367 < 43.4 ≤ 43.42 + 0.02367
Valve springs, load at fitted length, intake | 195.0 197.5 | 195.0 N | SP | 205.. | 188.60.. | within service limit | the smallest: 195.0 − 2.17 ≥ 188.60
Valve springs, free length, exhaust | 43.35 43.60 | 43.35 mm | CA | 44.6.. | 43.4.. | past the limit | the smallest: 43.35 + 0.02367 < 43.4
Valve springs, load at fitted length, exhaust | 208.0 207.5 | 207.5 N | SP | 205.. | 188.60.. | within standard | the smallest: 207.5 − 2.17 ≥ 205
Cam lobe, intake | gauge MI-2; 39.955 39.960 | 39.953 mm | MI | 40.05..40.15 | 39.95.. | within service limit | the smallest less zero 0.002: 39.953 + 0.00251 ≤ 40.15, 39.953 − 0.00251 ≥ 39.95
Cam base circle, intake | gauge MI-2; 31.503 31.505 | 31.502 mm | MI mean | 31.45..31.55 | .. | within standard | the mean less zero 0.002: 31.502 + 0.00233 ≤ 31.55, 31.502 − 0.00233 ≥ 31.45
Lift, intake | = | 8.451 mm to 8.456 mm | MI−MI mean | 8.54.. | 8.45.. | undecided | 39.953 and 39.958 − 31.502: 8.451 − 0.00290 < 8.45 ≤ 8.451 + 0.00290
Cam caps, intake | 26.055 26.050 | 26.055 mm | SH | 26..26.021 | ..26.05 | past the limit | the largest: 26.055 − 0.00394 > 26.05
Cam journals, intake | gauge MI-2; 25.970 25.972 | 25.968 mm | MI | 25.959..25.98 | 25.94.. | within standard | the smallest less zero 0.002: 25.968 + 0.00251 ≤ 25.98, 25.968 − 0.00251 ≥ 25.959
Oil clearance, cam intake | = | 0.080 mm to 0.087 mm | SH,MI | 0.02..0.062 | ..0.1 | within service limit | 26.050 − 25.970 and 26.055 − 25.968: 0.087 + 0.00467 ≤ 0.1, 0.080 − 0.00467 ≥ 0.02
Cam runout, intake | 0.012 | 0.012 mm | DI | ..0.02 | ..0.04 | within standard | 0.012 + 0.00382 ≤ 0.02
Cam lobe, exhaust | gauge MI-2; 39.700 39.698 | 39.696 mm | MI | 39.65..39.75 | 39.55.. | within standard | the smallest less zero 0.002: 39.696 + 0.00251 ≤ 39.75, 39.696 − 0.00251 ≥ 39.65
Cam base circle, exhaust | gauge MI-2; 31.440 31.444 | 31.440 mm | MI mean | 31.45..31.55 | .. | past the limit | the mean less zero 0.002: 31.440 + 0.00233 < 31.45
Lift, exhaust | = | 8.256 mm to 8.258 mm | MI−MI mean | 8.14.. | 8.05.. | within standard | 39.696 and 39.698 − 31.440: 8.256 − 0.00290 ≥ 8.14
Cam caps, exhaust | 26.016 26.014 | 26.016 mm | SH | 26..26.021 | ..26.05 | within standard | the largest: 26.016 + 0.00394 ≤ 26.021, 26.016 − 0.00394 ≥ 26
Cam journals, exhaust | gauge MI-2; 25.944 25.947 | 25.942 mm | MI | 25.959..25.98 | 25.94.. | undecided | the smallest less zero 0.002: 25.942 − 0.00251 < 25.94 ≤ 25.942 + 0.00251
Oil clearance, cam exhaust | = | 0.069 mm to 0.074 mm | SH,MI | 0.02..0.062 | ..0.1 | within service limit | 26.014 − 25.945 and 26.016 − 25.942: 0.074 + 0.00467 ≤ 0.1, 0.069 − 0.00467 ≥ 0.02
Cam runout, exhaust | 0.043 | 0.043 mm | DI | ..0.02 | ..0.04 | undecided | 0.043 − 0.00382 ≤ 0.04 < 0.043 + 0.00382
Cam chain, 20 links at 50 N | 160.90 | 160.90 mm | CA | 158.5..159.1 | ..160.6 | past the limit | 160.90 − 0.02367 > 160.6
Cam chain, stretch | = | 1.322 % | CA/158.8 | ..0.3 | ..1.1 | past the limit | (160.90 − 158.8) / 158.8: 1.3224 − 0.0149 > 1.1
Compression, cranking | 690 | 690 kPa | CG | 720..1000 | 600.. | within service limit | 690 + 23.67 ≤ 1000, 690 − 23.67 ≥ 600
Leak-down at top dead centre | 8.5 | 8.5 % | LD | ..10 | ..20 | within standard | 8.5 + 1.09966 ≤ 10
`);
