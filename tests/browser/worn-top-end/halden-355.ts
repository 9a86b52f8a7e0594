import { worksheet } from './worksheet.ts';

/**
 * A worn Halden 355 with a grade A piston: bore read twice where it is worst, one place in inches, cams by the micrometer in date.
 * Limits as the demo shop's sheet prints them; all figures invented. Worked out by hand: see worksheet.ts for the columns.
 */
export const halden355 = worksheet(`
Bore, size | 88.048 again; 88.047; 3.4660 as in; 88.041 88.034 88.031 88.092; undo; 88.029 | 88.0475 mm | BG×2 | 88..88.012 | ..88.05 | undecided | the largest: 88.0475 − 0.00337 ≤ 88.05 < 88.0475 + 0.00337
Bore, out-of-round | = | 0.0111 mm | BG×2−BG | ..0.01 | ..0.03 | within service limit | A, 88.0475 − 88.0364: 0.0111 + 0.00477 ≤ 0.03
Bore, taper | = | 0.0165 mm | BG×2−BG | ..0.01 | ..0.03 | within service limit | across, 88.0475 − 88.031: 0.0165 + 0.00477 ≤ 0.03
Piston, 9 mm above the skirt edge | 87.921 | 87.921 mm | MI | 87.957..87.965 | 87.925.. | past the limit | grade A: 87.921 + 0.00251 < 87.925
Clearance, bore − piston | = | 0.108 mm to 0.1265 mm | BG,MI | 0.04..0.06 | ..0.1 | past the limit | 88.0475 − 87.921 and 88.029 − 87.921: 0.1265 − 0.00443 > 0.1
Ring end gap, top | 0.55 0.60 | between 0.547 mm and 0.603 mm | FE | 0.3..0.4 | 0.25..0.6 | undecided | 0.547 ≤ 0.6 < 0.603
Ring end gap, second | 0.70 0.75 | between 0.697 mm and 0.753 mm | FE | 0.35..0.45 | 0.3..0.65 | past the limit | 0.697 > 0.65
Ring end gap, upper oil rail | 0.50 0.52 | between 0.497 mm and 0.523 mm | FE | 0.2..0.6 | ..0.9 | within standard | 0.523 ≤ 0.6, 0.497 ≥ 0.2
Ring end gap, lower oil rail | 0.65 0.70 | between 0.647 mm and 0.703 mm | FE | 0.2..0.6 | ..0.9 | within service limit | 0.703 ≤ 0.9, 0.647 ≥ 0.2
Ring side clearance, top | 0.08 0.09 0.09 0.10 | 0.078 mm to 0.102 mm | FE | 0.02..0.07 | ..0.12 | within service limit | 0.102 ≤ 0.12, 0.078 ≥ 0.02
Ring side clearance, second | 0.03 0.04 0.04 0.05 | 0.028 mm to 0.052 mm | FE | 0.02..0.06 | ..0.11 | within standard | 0.052 ≤ 0.06, 0.028 ≥ 0.02
Piston pin | 19.995 19.988 19.990 | 19.988 mm | MI | 19.994..20 | 19.98.. | within service limit | the smallest: 19.988 + 0.00251 ≤ 20, 19.988 − 0.00251 ≥ 19.98
Pin bosses | 20.021 20.024 | 20.024 mm | SH | 20.002..20.012 | ..20.04 | within service limit | the largest: 20.024 + 0.00394 ≤ 20.04, 20.024 − 0.00394 ≥ 20.002
Clearance, boss − pin | = | 0.026 mm to 0.036 mm | SH,MI | 0.002..0.018 | ..0.05 | within service limit | 20.021 − 19.995 and 20.024 − 19.988: 0.036 + 0.00467 ≤ 0.05, 0.026 − 0.00467 ≥ 0.002
Small end | 20.049 20.043 | 20.049 mm | SH | 20.01..20.025 | ..20.05 | undecided | the largest: 20.049 − 0.00394 ≤ 20.05 < 20.049 + 0.00394
Clearance, small end − pin | = | 0.048 mm to 0.061 mm | SH,MI | 0.01..0.031 | ..0.06 | undecided | 20.043 − 19.995 and 20.049 − 19.988: 0.061 − 0.00467 ≤ 0.06 < 0.061 + 0.00467
Big end, side clearance | 0.48 0.50 | between 0.477 mm and 0.503 mm | FE | 0.15..0.45 | ..0.7 | within service limit | 0.503 ≤ 0.7, 0.477 ≥ 0.15
Big end, radial play | 0 | no play felt | hand | ..0 | .. | within service limit | a hand tells play, not that it is as new
Crank runout, left | 0.021 | 0.021 mm | DI | ..0.03 | ..0.05 | within standard | 0.021 + 0.00382 ≤ 0.03
Crank runout, right | 0.047 | 0.047 mm | DI | ..0.03 | ..0.05 | undecided | 0.047 − 0.00382 ≤ 0.05 < 0.047 + 0.00382
Crank end float | 0.118 | 0.118 mm | DI | 0.05..0.25 | 0.03..0.4 | within standard | 0.118 + 0.00382 ≤ 0.25, 0.118 − 0.00382 ≥ 0.05
Head face, flatness | gauge FE-2; 0.02 0.03 0.03 0.04 0.02 0.03 - 0.02 0.04 0.05 0.03 0.04 | between 0.038 mm and 0.052 mm | FE | ..0.03 | ..0.05 | undecided | 0.038 ≤ 0.05 < 0.052
Cylinder face, flatness | - 0.02 - 0.02 - 0.02 - 0.02 - 0.02 - 0.02 | between 0.00 mm and 0.022 mm | FE | ..0.03 | ..0.05 | within standard | 0.022 ≤ 0.03
Head height, face to cover face | 91.98 91.99 | 91.98 mm | CA | 91.95..92.05 | 91.8.. | within standard | the smallest: 91.98 + 0.02367 ≤ 92.05, 91.98 − 0.02367 ≥ 91.95
Guide, intake left | 5.531 5.528 5.535 | 5.535 mm | SH | 5.52..5.532 | ..5.56 | within service limit | the largest: 5.535 + 0.00394 ≤ 5.56, 5.535 − 0.00394 ≥ 5.52
Stem, intake left | 5.489 5.488 5.485 5.484 5.481 5.482 | 5.481 mm | MI | 5.485..5.5 | 5.47.. | within service limit | the smallest: 5.481 + 0.00251 ≤ 5.5, 5.481 − 0.00251 ≥ 5.47
Stem clearance, intake left | = | 0.039 mm to 0.054 mm | SH,MI | 0.02..0.047 | ..0.08 | within service limit | 5.528 − 5.489 and 5.535 − 5.481: 0.054 + 0.00467 ≤ 0.08, 0.039 − 0.00467 ≥ 0.02
Stem runout, intake left | 0.012 | 0.012 mm | DI | ..0.01 | ..0.05 | within service limit | 0.012 + 0.00382 ≤ 0.05
Seat contact width, intake left | 1.32 | 1.32 mm | CA | 0.9..1.1 | ..1.6 | within service limit | 1.32 + 0.02367 ≤ 1.6, 1.32 − 0.02367 ≥ 0.9
Lash, intake left | 0.08 0.09 | between 0.078 mm and 0.092 mm | FE | 0.1..0.15 | 0.08..0.17 | undecided | 0.078 < 0.08 ≤ 0.092
Guide, intake right | 5.524 5.523 5.525 | 5.525 mm | SH | 5.52..5.532 | ..5.56 | within standard | the largest: 5.525 + 0.00394 ≤ 5.532, 5.525 − 0.00394 ≥ 5.52
Stem, intake right | 5.492 5.493 5.491 5.492 5.490 5.491 | 5.490 mm | MI | 5.485..5.5 | 5.47.. | within standard | the smallest: 5.490 + 0.00251 ≤ 5.5, 5.490 − 0.00251 ≥ 5.485
Stem clearance, intake right | = | 0.030 mm to 0.035 mm | SH,MI | 0.02..0.047 | ..0.08 | within standard | 5.523 − 5.493 and 5.525 − 5.490: 0.035 + 0.00467 ≤ 0.047, 0.030 − 0.00467 ≥ 0.02
Stem runout, intake right | 0.006 | 0.006 mm | DI | ..0.01 | ..0.05 | within standard | 0.006 + 0.00382 ≤ 0.01
Seat contact width, intake right | 1.58 | 1.58 mm | CA | 0.9..1.1 | ..1.6 | undecided | 1.58 − 0.02367 ≤ 1.6 < 1.58 + 0.02367
Lash, intake right | 0.12 0.13 | between 0.118 mm and 0.132 mm | FE | 0.1..0.15 | 0.08..0.17 | within standard | 0.132 ≤ 0.15, 0.118 ≥ 0.1
Guide, exhaust left | 5.062 5.058 5.065 | 5.065 mm | SH | 5.02..5.032 | ..5.06 | past the limit | the largest: 5.065 − 0.00394 > 5.06
Stem, exhaust left | 4.972 4.971 4.969 4.970 4.968 4.969 | 4.968 mm | MI | 4.985..5 | 4.97.. | undecided | the smallest: 4.968 − 0.00251 < 4.97 ≤ 4.968 + 0.00251
Stem clearance, exhaust left | = | 0.086 mm to 0.097 mm | SH,MI | 0.02..0.047 | ..0.08 | past the limit | 5.058 − 4.972 and 5.065 − 4.968: 0.097 − 0.00467 > 0.08
Stem runout, exhaust left | 0.056 | 0.056 mm | DI | ..0.01 | ..0.05 | past the limit | 0.056 − 0.00382 > 0.05
Seat contact width, exhaust left | 1.70 | 1.70 mm | CA | 0.9..1.1 | ..1.6 | past the limit | 1.70 − 0.02367 > 1.6
Lash, exhaust left | 0.13 0.14 | between 0.128 mm and 0.142 mm | FE | 0.17..0.22 | 0.15..0.24 | past the limit | below 0.142 ≤ 0.15
Guide, exhaust right | 5.033 5.031 5.036 | 5.036 mm | SH | 5.02..5.032 | ..5.06 | within service limit | the largest: 5.036 + 0.00394 ≤ 5.06, 5.036 − 0.00394 ≥ 5.02
Stem, exhaust right | 4.987 4.986 4.983 4.984 4.981 4.982 | 4.981 mm | MI | 4.985..5 | 4.97.. | within service limit | the smallest: 4.981 + 0.00251 ≤ 5, 4.981 − 0.00251 ≥ 4.97
Stem clearance, exhaust right | = | 0.044 mm to 0.055 mm | SH,MI | 0.02..0.047 | ..0.08 | within service limit | 5.031 − 4.987 and 5.036 − 4.981: 0.055 + 0.00467 ≤ 0.08, 0.044 − 0.00467 ≥ 0.02
Stem runout, exhaust right | 0.009 | 0.009 mm | DI | ..0.01 | ..0.05 | within service limit | 0.009 + 0.00382 ≤ 0.05
Seat contact width, exhaust right | 1.05 | 1.05 mm | CA | 0.9..1.1 | ..1.6 | within standard | 1.05 + 0.02367 ≤ 1.1, 1.05 − 0.02367 ≥ 0.9
Lash, exhaust right | 0.17 0.18 | between 0.168 mm and 0.182 mm | FE | 0.17..0.22 | 0.15..0.24 | within service limit | 0.182 ≤ 0.24, 0.168 ≥ 0.15
Valve springs, free length, intake | 40.55 40.62 | 40.55 mm | CA | 41.2.. | 40.0.. | within service limit | the smallest: 40.55 − 0.02367 ≥ 40.0
Valve springs, load at fitted length, intake | 163.0 165.5 | 163.0 N | SP | 172.. | 158.24.. | within service limit | the smallest: 163.0 − 2.17 ≥ 158.24
Valve springs, free length, exhaust | 40.01 40.30 | 40.01 mm | CA | 41.2.. | 40.0.. | undecided | the smallest: 40.01 − 0.02367 < 40.0 ≤ 40.01 + 0.02367
Valve springs, load at fitted length, exhaust | 155.0 157.0 | 155.0 N | SP | 172.. | 158.24.. | past the limit | the smallest: 155.0 + 2.17 < 158.24
Cam lobe, intake | gauge MI-5; 36.880 36.874 | 36.874 mm | MI | 36.95..37.05 | 36.85.. | within service limit | the smallest: 36.874 + 0.00251 ≤ 37.05, 36.874 − 0.00251 ≥ 36.85
Cam base circle, intake | gauge MI-5; 27.598 27.601 | 27.5995 mm | MI mean | 27.55..27.65 | .. | within standard | the mean: 27.5995 + 0.00233 ≤ 27.65, 27.5995 − 0.00233 ≥ 27.55
Lift, intake | = | 9.2745 mm to 9.2805 mm | MI−MI mean | 9.34.. | 9.25.. | within service limit | 36.874 and 36.880 − 27.5995: 9.2745 − 0.00290 ≥ 9.25
Cam caps, intake | 22.018 22.024 | 22.024 mm | SH | 22..22.021 | ..22.05 | within service limit | the largest: 22.024 + 0.00394 ≤ 22.05, 22.024 − 0.00394 ≥ 22
Cam journals, intake | 21.957 21.962 | 21.957 mm | MI | 21.959..21.98 | 21.94.. | within service limit | the smallest: 21.957 + 0.00251 ≤ 21.98, 21.957 − 0.00251 ≥ 21.94
Oil clearance, cam intake | = | 0.056 mm to 0.067 mm | SH,MI | 0.02..0.062 | ..0.1 | within service limit | 22.018 − 21.962 and 22.024 − 21.957: 0.067 + 0.00467 ≤ 0.1, 0.056 − 0.00467 ≥ 0.02
Cam runout, intake | 0.011 | 0.011 mm | DI | ..0.02 | ..0.04 | within standard | 0.011 + 0.00382 ≤ 0.02
Cam lobe, exhaust | gauge MI-5; 36.342 36.347 | 36.342 mm | MI | 36.45..36.55 | 36.35.. | past the limit | the smallest: 36.342 + 0.00251 < 36.35
Cam base circle, exhaust | gauge MI-5; 27.596 27.599 | 27.5975 mm | MI mean | 27.55..27.65 | .. | within standard | the mean: 27.5975 + 0.00233 ≤ 27.65, 27.5975 − 0.00233 ≥ 27.55
Lift, exhaust | = | 8.7445 mm to 8.7495 mm | MI−MI mean | 8.84.. | 8.75.. | past the limit | 36.342 and 36.347 − 27.5975: 8.7445 + 0.00290 < 8.75
Cam caps, exhaust | 22.012 22.010 | 22.012 mm | SH | 22..22.021 | ..22.05 | within standard | the largest: 22.012 + 0.00394 ≤ 22.021, 22.012 − 0.00394 ≥ 22
Cam journals, exhaust | 21.966 21.968 | 21.966 mm | MI | 21.959..21.98 | 21.94.. | within standard | the smallest: 21.966 + 0.00251 ≤ 21.98, 21.966 − 0.00251 ≥ 21.959
Oil clearance, cam exhaust | = | 0.042 mm to 0.046 mm | SH,MI | 0.02..0.062 | ..0.1 | within standard | 22.010 − 21.968 and 22.012 − 21.966: 0.046 + 0.00467 ≤ 0.062, 0.042 − 0.00467 ≥ 0.02
Cam runout, exhaust | 0.038 | 0.038 mm | DI | ..0.02 | ..0.04 | undecided | 0.038 − 0.00382 ≤ 0.04 < 0.038 + 0.00382
Cam chain, 20 links at 50 N | 128.58 | 128.58 mm | CA | 126.7..127.3 | ..128.6 | undecided | 128.58 − 0.02367 ≤ 128.6 < 128.58 + 0.02367
Cam chain, stretch | = | 1.244 % | CA/127 | ..0.3 | ..1.2 | past the limit | (128.58 − 127) / 127: 1.2441 − 0.01863 > 1.2
Compression, cranking | 790 | 790 kPa | CG | 900..1250 | 780.. | undecided | 790 − 23.67 < 780 ≤ 790 + 23.67
Leak-down at top dead centre | 12.5 | 12.5 % | LD | ..8 | ..18 | within service limit | 12.5 + 1.09966 ≤ 18
`);
