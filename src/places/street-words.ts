/** Kinds of street in any spelling, by the one that they are known by; the usual ones of the US Postal Service, and Spanish. */
const KINDS: Record<string, string> = {
  aly: 'alley ally',
  ave: 'avenue av aven avenida avda avd',
  bnd: 'bend',
  blf: 'bluff',
  blvd: 'boulevard boul bulevar',
  br: 'branch',
  brg: 'bridge',
  brk: 'brook',
  byp: 'bypass',
  cir: 'circle circ crcl',
  cl: 'close',
  clb: 'club',
  cmn: 'common commons',
  cor: 'corner corners',
  cres: 'crescent crescnt',
  crk: 'creek',
  cswy: 'causeway',
  ct: 'court crt',
  cts: 'courts',
  ctr: 'center centre',
  cv: 'cove',
  dr: 'drive drv driv',
  est: 'estate',
  ests: 'estates',
  expy: 'expressway',
  ext: 'extension',
  fld: 'field',
  flds: 'fields',
  frk: 'fork',
  frst: 'forest',
  ft: 'fort',
  fwy: 'freeway',
  gdn: 'garden',
  gdns: 'gardens',
  gln: 'glen',
  grn: 'green',
  grv: 'grove',
  hl: 'hill',
  hls: 'hills',
  holw: 'hollow',
  hts: 'heights',
  hwy: 'highway hiway',
  jct: 'junction',
  knl: 'knoll',
  lk: 'lake',
  ln: 'lane',
  lndg: 'landing',
  mdw: 'meadow',
  mdws: 'meadows',
  mnr: 'manor',
  mt: 'mount',
  mtn: 'mountain',
  orch: 'orchard',
  pike: 'pk',
  pkwy: 'parkway pky parkwy',
  pl: 'place',
  plz: 'plaza',
  pne: 'pine',
  pnes: 'pines',
  prt: 'port',
  psge: 'passage',
  pt: 'point',
  rd: 'road carretera',
  rdg: 'ridge',
  riv: 'river',
  rte: 'route rt',
  shr: 'shore',
  spg: 'spring',
  spgs: 'springs',
  sq: 'square',
  // A saint too, as nobody can tell them apart.
  st: 'street str strt saint',
  sta: 'station',
  ter: 'terrace terr',
  tpke: 'turnpike',
  trce: 'trace',
  trl: 'trail',
  vis: 'vista',
  vly: 'valley',
  vw: 'view',
  way: 'wy',
  xing: 'crossing',
  calle: 'c',
}

const DIRECTIONS: Record<string, string> = {
  n: 'north norte',
  s: 'south sur',
  e: 'east este',
  w: 'west oeste',
  ne: 'northeast',
  nw: 'northwest',
  se: 'southeast',
  sw: 'southwest',
}

const ORDINALS = 'first second third fourth fifth sixth seventh eighth ninth tenth'

/** What stands before a unit's number. */
export const UNIT_WORDS = new Set(
  'apt apartment apto apartamento unit unidad suite ste room rm floor flat lot bldg building no number trlr spc'.split(
    ' ',
  ),
)

const SPELLINGS = new Map<string, string>()
for (const words of [KINDS, DIRECTIONS]) {
  for (const [short, spellings] of Object.entries(words)) {
    for (const spelling of spellings.split(' ')) SPELLINGS.set(spelling, short)
  }
}
for (const [index, word] of ORDINALS.split(' ').entries())
  SPELLINGS.set(word, `${index + 1}${['st', 'nd', 'rd'][index] ?? 'th'}`)

/** A word of an address in the one spelling that all of its spellings come to. */
export function streetWord(word: string): string {
  return SPELLINGS.get(word) ?? word
}

/** Those that hardly ever end the name of a town. */
const KINDS_SHORT = new Set(
  'aly ave blvd cir cl cres ct cv dr expy fwy hwy ln loop pike pkwy pl plz rd row rte sq st ter tpke trce trl walk way xing'.split(
    ' ',
  ),
)
const DIRECTIONS_SHORT = new Set(Object.keys(DIRECTIONS))

/** Whether a word, as streetWord gives it, says what kind of street it is. */
export function isKindOfStreet(word: string): boolean {
  return KINDS_SHORT.has(word)
}

/** Whether it says which way. */
export function isDirection(word: string): boolean {
  return DIRECTIONS_SHORT.has(word)
}
