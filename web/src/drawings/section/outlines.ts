/** Outlines in mm, origin on the crank's axis. Drawn solid when the part is on, as a phantom line when it's off. */
export const fourStrokeOutlines = {
  cover: 'M-77-250V-258L-73-262V-274Q-73-293-50-293H-17L-15-288H15L17-293H50Q73-293 73-274V-262L77-258V-250Z',
  head: 'M-66-158.5V-176L-75-178V-212L-70-215L-73-228V-250H73V-228L70-216L78-214V-180L66-176V-158.5L43-158.5L0-169L-43-158.5Z',
  cylinder: 'M-66-157V-106L-57-100V-92L-64-90V-82H64V-90L57-92V-100L66-106V-157Z',
  casing:
    'M-64-82V-72L-66-66V-8A66 66 0 0 0-44 49L-38 62Q-36 70-28 70H50Q62 70 74 66L118 47A54 54 0 0 0 142-30L114-64Q110-69 102-70L64-74V-82Z',
  gears: 'M67-60L102-55Q106-54 108-51L128-27A42 42 0 0 1 112 35L72 53Q62 57 56 56L45 46A67 67 0 0 0 66-12Z',
  cavity: 'M-50-82V-24A56 56 0 1 0 50-24V-82',
} as const;

export const twoStrokeOutlines = {
  head: 'M-56-160V-172L-50-184Q-46-192-34-193H-14L-11-190H11L14-193H34Q46-192 50-184L56-172V-160H27V-163Q14-176 0-177Q-14-176-27-163V-160Z',
  cylinder: 'M-56-159H56V-146L54-98L48-92V-82H-48V-92L-54-98L-76-104V-140L-56-146Z',
  casing:
    'M-50-82V-72L-54-62V-10A54 54 0 0 0-34 42L-28 54Q-26 60-18 60H44Q60 60 70 56L112 40A50 50 0 0 0 134-30L108-58H76L104-104L82-117L56-78L50-76V-82Z',
  gears: 'M62-50H102L122-26A40 40 0 0 1 106 28L68 44Q58 47 52 44L40 36A55 55 0 0 0 55-10Z',
  cavity: 'M-33-82V-32A46 46 0 1 0 44-14L50-34L76-79',
} as const;

/** Half the included valve angle, and where cam and valve face stand. */
const VALVE_ANGLE = (14 * Math.PI) / 180;
export const valveFace = { x: 22, y: -163.2 } as const;
export const alongValve = (distance: number) => ({
  x: valveFace.x + Math.sin(VALVE_ANGLE) * distance,
  y: valveFace.y - Math.cos(VALVE_ANGLE) * distance,
});
export const camCentre = alongValve(99);
