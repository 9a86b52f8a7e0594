import { worksheet } from './worksheet.ts';

/**
 * A worn Halden 388 with a grade B piston: bore and piston read at 28 °C, where 1 − 8 × (23 − 11.5) × 10⁻⁶ = 1 − 0.000092 brings them to 20 °C.
 * Limits as the demo shop's sheet prints them; all figures invented. Worked out by hand: see worksheet.ts for the columns.
 */
export const halden388 = worksheet(`
Bore, size | temperature 28; 92.055 92.049 92.046 92.041 92.033 92.030 | 92.0465 mm | BG at 28 °C | 92..92.012 | ..92.05 | undecided | the largest: 92.046530940 − 0.00413 ≤ 92.05 < 92.046530940 + 0.00413
Bore, out-of-round | = | 0.006 mm | BG−BG | ..0.01 | ..0.03 | within service limit | A, 92.055 − 92.049: 0.005999448 + 0.00497 ≤ 0.03
Bore, taper | = | 0.022 mm | BG−BG | ..0.01 | ..0.03 | within service limit | across, 92.055 − 92.033: 0.021997976 + 0.00497 ≤ 0.03
Piston, 10 mm above the skirt edge | 91.938 | 91.9295 mm | MI at 28 °C | 91.942..91.95 | 91.91.. | within service limit | grade B, 91.938 × (1 − 0.000092): 91.929541704 + 0.00317 ≤ 91.95, 91.929541704 − 0.00317 ≥ 91.91
Clearance, bore − piston | = | 0.092 mm to 0.117 mm | BG,MI at 28 °C | 0.045..0.068 | ..0.11 | past the limit | largest and smallest bore − piston: 0.116989236 − 0.00520 > 0.11
Ring end gap, top | no temperature; 0.45 0.48 | between 0.447 mm and 0.483 mm | FE | 0.32..0.42 | 0.27..0.62 | within service limit | 0.483 ≤ 0.62, 0.447 ≥ 0.27
Ring end gap, second | 0.38 0.40 | between 0.377 mm and 0.403 mm | FE | 0.35..0.45 | 0.3..0.65 | within standard | 0.403 ≤ 0.45, 0.377 ≥ 0.35
Ring end gap, upper oil rail | 0.90 1.00 | between 0.897 mm and 1.003 mm | FE | 0.2..0.6 | ..0.9 | undecided | 0.897 ≤ 0.9 < 1.003
Ring end gap, lower oil rail | 1.00 - | 0.997 mm or more | FE | 0.2..0.6 | ..0.9 | past the limit | 0.997 > 0.9
Ring side clearance, top | 0.10 0.11 0.11 0.12 | 0.098 mm to 0.122 mm | FE | 0.02..0.07 | ..0.12 | undecided | 0.108 ≤ 0.12 < 0.122
Ring side clearance, second | 0.12 0.13 0.13 0.14 | 0.118 mm to 0.142 mm | FE | 0.02..0.06 | ..0.11 | past the limit | 0.128 > 0.11
Piston pin | 19.997 19.998 19.998 | 19.997 mm | MI | 19.994..20 | 19.98.. | within standard | the smallest: 19.997 + 0.00251 ≤ 20, 19.997 − 0.00251 ≥ 19.994
Pin bosses | 20.008 20.007 | 20.008 mm | SH | 20.002..20.012 | ..20.04 | within standard | the largest: 20.008 + 0.00394 ≤ 20.012, 20.008 − 0.00394 ≥ 20.002
Clearance, boss − pin | = | 0.009 mm to 0.011 mm | SH,MI | 0.002..0.018 | ..0.05 | within standard | 20.007 − 19.998 and 20.008 − 19.997: 0.011 + 0.00467 ≤ 0.018, 0.009 − 0.00467 ≥ 0.002
Small end | 0.7886" 20.027 | 20.0304 mm | SH | 20.01..20.025 | ..20.05 | within service limit | the largest: 20.03044 + 0.00394 ≤ 20.05, 20.03044 − 0.00394 ≥ 20.01
Clearance, small end − pin | = | 0.029 mm to 0.0334 mm | SH,MI | 0.01..0.031 | ..0.06 | within service limit | 20.027 − 19.998 and 20.03044 − 19.997: 0.03344 + 0.00467 ≤ 0.06, 0.029 − 0.00467 ≥ 0.01
Big end, side clearance | 0.65 0.70 | between 0.647 mm and 0.703 mm | FE | 0.15..0.45 | ..0.7 | undecided | 0.647 ≤ 0.7 < 0.703
Big end, radial play | 1 | play felt | hand | ..0 | .. | past the limit | a hand tells play, not that it is as new
Crank runout, left | 0.036 | 0.036 mm | DI | ..0.03 | ..0.05 | within service limit | 0.036 + 0.00382 ≤ 0.05
Crank runout, right | 0.055 | 0.055 mm | DI | ..0.03 | ..0.05 | past the limit | 0.055 − 0.00382 > 0.05
Crank end float | 0.252 | 0.252 mm | DI | 0.05..0.25 | 0.03..0.4 | within service limit | 0.252 + 0.00382 ≤ 0.4, 0.252 − 0.00382 ≥ 0.03
Head face, flatness | 0.02 0.03 0.02 0.03 0.02 0.03 0.02 0.03 0.02 0.03 0.03 0.04 | between 0.028 mm and 0.042 mm | FE | ..0.03 | ..0.05 | within service limit | 0.042 ≤ 0.05
Cylinder face, flatness | 0.02 0.03 0.03 0.04 0.06 0.08 0.02 0.03 - 0.02 0.04 0.05 | between 0.058 mm and 0.082 mm | FE | ..0.03 | ..0.05 | past the limit | 0.058 > 0.05
Head height, face to cover face | 91.83 91.81 | 91.81 mm | CA | 91.95..92.05 | 91.8.. | undecided | the smallest: 91.81 − 0.02367 < 91.8 ≤ 91.81 + 0.02367
Guide, intake left | 5.526 5.524 5.527 | 5.527 mm | SH | 5.52..5.532 | ..5.56 | within standard | the largest: 5.527 + 0.00394 ≤ 5.532, 5.527 − 0.00394 ≥ 5.52
Stem, intake left | 5.489 5.490 5.488 5.489 5.488 5.489 | 5.488 mm | MI | 5.485..5.5 | 5.47.. | within standard | the smallest: 5.488 + 0.00251 ≤ 5.5, 5.488 − 0.00251 ≥ 5.485
Stem clearance, intake left | = | 0.034 mm to 0.039 mm | SH,MI | 0.02..0.047 | ..0.08 | within standard | 5.524 − 5.490 and 5.527 − 5.488: 0.039 + 0.00467 ≤ 0.047, 0.034 − 0.00467 ≥ 0.02
Stem runout, intake left | 0.031 | 0.031 mm | DI | ..0.01 | ..0.05 | within service limit | 0.031 + 0.00382 ≤ 0.05
Seat contact width, intake left | 1.02 | 1.02 mm | CA | 0.9..1.1 | ..1.6 | within standard | 1.02 + 0.02367 ≤ 1.1, 1.02 − 0.02367 ≥ 0.9
Lash, intake left | 0.10 0.11 | between 0.098 mm and 0.112 mm | FE | 0.1..0.15 | 0.08..0.17 | within service limit | 0.112 ≤ 0.17, 0.098 ≥ 0.08
Guide, intake right | 5.541 5.538 5.544 | 5.544 mm | SH | 5.52..5.532 | ..5.56 | within service limit | the largest: 5.544 + 0.00394 ≤ 5.56, 5.544 − 0.00394 ≥ 5.52
Stem, intake right | 5.478 5.477 5.475 5.474 5.472 5.473 | 5.472 mm | MI | 5.485..5.5 | 5.47.. | undecided | the smallest: 5.472 − 0.00251 < 5.47 ≤ 5.472 + 0.00251
Stem clearance, intake right | = | 0.060 mm to 0.072 mm | SH,MI | 0.02..0.047 | ..0.08 | within service limit | 5.538 − 5.478 and 5.544 − 5.472: 0.072 + 0.00467 ≤ 0.08, 0.060 − 0.00467 ≥ 0.02
Stem runout, intake right | 0.049 | 0.049 mm | DI | ..0.01 | ..0.05 | undecided | 0.049 − 0.00382 ≤ 0.05 < 0.049 + 0.00382
Seat contact width, intake right | 1.45 | 1.45 mm | CA | 0.9..1.1 | ..1.6 | within service limit | 1.45 + 0.02367 ≤ 1.6, 1.45 − 0.02367 ≥ 0.9
Lash, intake right | 0.06 0.07 | between 0.058 mm and 0.072 mm | FE | 0.1..0.15 | 0.08..0.17 | past the limit | below 0.072 ≤ 0.08
Guide, exhaust left | 5.057 5.055 5.058 | 5.058 mm | SH | 5.02..5.032 | ..5.06 | undecided | the largest: 5.058 − 0.00394 ≤ 5.06 < 5.058 + 0.00394
Stem, exhaust left | 4.965 4.966 4.962 4.963 4.960 4.961 | 4.960 mm | MI | 4.985..5 | 4.97.. | past the limit | the smallest: 4.960 + 0.00251 < 4.97
Stem clearance, exhaust left | = | 0.089 mm to 0.098 mm | SH,MI | 0.02..0.047 | ..0.08 | past the limit | 5.055 − 4.966 and 5.058 − 4.960: 0.098 − 0.00467 > 0.08
Stem runout, exhaust left | 0.004 | 0.004 mm | DI | ..0.01 | ..0.05 | within standard | 0.004 + 0.00382 ≤ 0.01
Seat contact width, exhaust left | 1.62 | 1.62 mm | CA | 0.9..1.1 | ..1.6 | undecided | 1.62 − 0.02367 ≤ 1.6 < 1.62 + 0.02367
Lash, exhaust left | 0.19 0.20 | between 0.188 mm and 0.202 mm | FE | 0.17..0.22 | 0.15..0.24 | within standard | 0.202 ≤ 0.22, 0.188 ≥ 0.17
Guide, exhaust right | 5.028 5.026 5.027 | 5.028 mm | SH | 5.02..5.032 | ..5.06 | within standard | the largest: 5.028 + 0.00394 ≤ 5.032, 5.028 − 0.00394 ≥ 5.02
Stem, exhaust right | 4.984 4.983 4.981 4.980 4.979 4.980 | 4.979 mm | MI | 4.985..5 | 4.97.. | within service limit | the smallest: 4.979 + 0.00251 ≤ 5, 4.979 − 0.00251 ≥ 4.97
Stem clearance, exhaust right | = | 0.042 mm to 0.049 mm | SH,MI | 0.02..0.047 | ..0.08 | within service limit | 5.026 − 4.984 and 5.028 − 4.979: 0.049 + 0.00467 ≤ 0.08, 0.042 − 0.00467 ≥ 0.02
Stem runout, exhaust right | 0.020 | 0.020 mm | DI | ..0.01 | ..0.05 | within service limit | 0.020 + 0.00382 ≤ 0.05
Seat contact width, exhaust right | 0.95 | 0.95 mm | CA | 0.9..1.1 | ..1.6 | within standard | 0.95 + 0.02367 ≤ 1.1, 0.95 − 0.02367 ≥ 0.9
Lash, exhaust right | 0.14 0.15 | between 0.138 mm and 0.152 mm | FE | 0.17..0.22 | 0.15..0.24 | undecided | 0.138 < 0.15 ≤ 0.152
Valve springs, free length, intake | 41.35 41.31 | 41.31 mm | CA | 41.2.. | 40.0.. | within standard | the smallest: 41.31 − 0.02367 ≥ 41.2
Valve springs, load at fitted length, intake | 175.5 176.0 | 175.5 N | SP | 172.. | 158.24.. | within standard | the smallest: 175.5 − 2.17 ≥ 172
Valve springs, free length, exhaust | 39.80 39.95 | 39.80 mm | CA | 41.2.. | 40.0.. | past the limit | the smallest: 39.80 + 0.02367 < 40.0
Valve springs, load at fitted length, exhaust | 160.0 161.5 | 160.0 N | SP | 172.. | 158.24.. | undecided | the smallest: 160.0 − 2.17 < 158.24 ≤ 160.0 + 2.17
Cam lobe, intake | gauge MI-5; 37.010 37.006 | 37.006 mm | MI | 36.95..37.05 | 36.85.. | within standard | the smallest: 37.006 + 0.00251 ≤ 37.05, 37.006 − 0.00251 ≥ 36.95
Cam base circle, intake | gauge MI-5; 27.604 27.606 | 27.605 mm | MI mean | 27.55..27.65 | .. | within standard | the mean: 27.605 + 0.00233 ≤ 27.65, 27.605 − 0.00233 ≥ 27.55
Lift, intake | = | 9.401 mm to 9.405 mm | MI−MI mean | 9.34.. | 9.25.. | within standard | 37.006 and 37.010 − 27.605: 9.401 − 0.00290 ≥ 9.34
Cam caps, intake | 22.049 22.041 | 22.049 mm | SH | 22..22.021 | ..22.05 | undecided | the largest: 22.049 − 0.00394 ≤ 22.05 < 22.049 + 0.00394
Cam journals, intake | 21.950 21.953 | 21.950 mm | MI | 21.959..21.98 | 21.94.. | within service limit | the smallest: 21.950 + 0.00251 ≤ 21.98, 21.950 − 0.00251 ≥ 21.94
Oil clearance, cam intake | = | 0.088 mm to 0.099 mm | SH,MI | 0.02..0.062 | ..0.1 | undecided | 22.041 − 21.953 and 22.049 − 21.950: 0.099 − 0.00467 ≤ 0.1 < 0.099 + 0.00467
Cam runout, intake | 0.045 | 0.045 mm | DI | ..0.02 | ..0.04 | past the limit | 0.045 − 0.00382 > 0.04
Cam lobe, exhaust | gauge MI-5; 36.352 36.356 | 36.352 mm | MI | 36.45..36.55 | 36.35.. | undecided | the smallest: 36.352 − 0.00251 < 36.35 ≤ 36.352 + 0.00251
Cam base circle, exhaust | gauge MI-5; 27.601 27.599 | 27.600 mm | MI mean | 27.55..27.65 | .. | within standard | the mean: 27.600 + 0.00233 ≤ 27.65, 27.600 − 0.00233 ≥ 27.55
Lift, exhaust | = | 8.752 mm to 8.756 mm | MI−MI mean | 8.84.. | 8.75.. | undecided | 36.352 and 36.356 − 27.600: 8.752 − 0.00290 < 8.75 ≤ 8.752 + 0.00290
Cam caps, exhaust | 22.030 22.027 | 22.030 mm | SH | 22..22.021 | ..22.05 | within service limit | the largest: 22.030 + 0.00394 ≤ 22.05, 22.030 − 0.00394 ≥ 22
Cam journals, exhaust | 21.936 21.939 | 21.936 mm | MI | 21.959..21.98 | 21.94.. | past the limit | the smallest: 21.936 + 0.00251 < 21.94
Oil clearance, cam exhaust | = | 0.088 mm to 0.094 mm | SH,MI | 0.02..0.062 | ..0.1 | within service limit | 22.027 − 21.939 and 22.030 − 21.936: 0.094 + 0.00467 ≤ 0.1, 0.088 − 0.00467 ≥ 0.02
Cam runout, exhaust | 0.024 | 0.024 mm | DI | ..0.02 | ..0.04 | within service limit | 0.024 + 0.00382 ≤ 0.04
Cam chain, 20 links at 50 N | 127.20 | 127.20 mm | CA | 126.7..127.3 | ..128.6 | within standard | 127.20 + 0.02367 ≤ 127.3, 127.20 − 0.02367 ≥ 126.7
Cam chain, stretch | = | 0.157 % | CA/127 | ..0.3 | ..1.2 | within standard | (127.20 − 127) / 127: 0.1575 + 0.01863 ≤ 0.3
Compression, cranking | 770 | 770 kPa | CG | 950..1300 | 820.. | past the limit | 770 + 23.67 < 820
Leak-down at top dead centre | 18.5 | 18.5 % | LD | ..8 | ..18 | undecided | 18.5 − 1.09966 ≤ 18 < 18.5 + 1.09966
`);
