/** Whose figures the depths of the starter finishes are, by slug; one that isn't here is common practice, no source. */
export const depthSources: Record<string, string> = {
  'shredded-wood': 'UF/IFAS Extension, Alachua and Polk counties: 2 to 3 in, not over 4',
  'dyed-wood': 'UF/IFAS Extension, Alachua and Polk counties: 2 to 3 in, not over 4',
  'bark-nuggets': 'UF/IFAS Extension, Alachua and Polk counties; Alabama Extension ANR-1359: to 4 in',
  'pine-straw': 'UF/IFAS Extension, Alachua and Polk counties: 2 to 3 in, not over 4',
}

/** Whose figures their wet weights are, in the same way. */
export const weightSources: Record<string, string> = {
  compost: 'Massachusetts: compost up to 1,350 lb a cubic yard',
  stone: 'CalRecycle: gravel 2,600 lb a cubic yard, and 20 % more when wet',
}
