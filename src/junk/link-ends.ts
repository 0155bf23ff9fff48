import tlds from 'tlds' with { type: 'json' }

/**
 * Ends of addresses that people also type as words, abbreviations and units, with the blank before them left out: 'the gate.in/out'.
 * Chosen by hand from IANA's list; no source.
 */
const WORDS = `
  ad al am as at be by cm cu do es hr id in is it km kg la lb ma me mg mi ml mm mr ms mt my ne ni no nr pa ph pl pm ps re sc
  se si so sr st su to us va ve
  abogado baby bar beauty best bingo black blue boo book box build builders buy cab cafe call cam camera camp car care cars
  casa case cash cat center charity chat cheap church city cleaning clinic clothing coach coffee community company contact
  contractors cool country coupon courses credit dad data date day deal deals delivery design diamonds direct directory
  discount diy dog drive earth eat eco education email energy engineer estate events exchange express fail family fan fans
  farm fast feedback film final finance fish fishing fit flowers fly food football forum foundation free frontier fun fund
  furniture futbol fyi garden gay gift gifts gives giving glass global gold golf got gratis green gripe group guide hair
  health help here hiphop hiv holiday horse hospital host hot hour house how ink institute insurance insure jobs joy kids
  kitchen land latino lawyer lease life lifestyle lighting like limited living loan lol lotto love luxury mail man
  management map market mba media meet memorial men menu mobile moda moi mom money motorcycles mov movie museum name
  network new news next now off one ong open outlet page parts party pay pet pets phone photo photos pics pictures
  pid pin pink pioneer place play plumbing plus post press prime productions property pub quest race read recipes red rehab
  rent rentals repair report rest review reviews rip rocks room rugby run safe sale salon save school science
  search secure select services shoes shopping show silk singles ski sky soccer social software solar solutions soy spa
  space spot storage stream studio study style sucks supplies supply support surf surgery systems talk tax taxi
  team tel tennis tienda tips tires today tools tours town toys trade trading training travel tube uno vacations vet
  video villas vision vote voting voyage walter watch watches weather wed wedding wine winners work works
  world wow wtf yoga you zero zip zone
`
  .trim()
  .split(/\s+/)

/** Every end of an address that IANA lists (https://data.iana.org/TLD/tlds-alpha-by-domain.txt), but for those that are words. */
export const LINK_ENDS: ReadonlySet<string> = new Set(tlds).difference(new Set(WORDS))
