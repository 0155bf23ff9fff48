/** Small words that hold sentences together, and what people write of beds; without accents. */
const HOLDS_TOGETHER = new Set(
  `a about after all also am an and any are as ask at back be because before but by call can come could day did do for from get give go
  had has have he her here him his how i if in is it its just let like me more my near need needs new no not now of off on one or our out over
  please she should side so some than thank thanks that the their them then there they this time to too two up us very want was we were what when where
  which while who will with would you your
  a al algo antes aqui asi buenas buenos cerca como con cuando de del desde despues dia donde dos el ella en entre es esa ese esta este estoy favor fue
  gracias ha hacia hasta hay la las le les lo los mas me mi mis muchas mucho muy necesito no nos nuestra nuestro o para pero por porque puede que quiero se si sin
  sobre son su sus tambien tengo tiene todo todos tu un una uno y ya
  bed beds bark border cm cu depth each edge edging fence foot front ft garden gate grass house in inch inches long mulch porch
  side sq stone straw tree trees weed weeds wide yard yards yd jardin jardinera jardineras mantillo pies patio`.split(
    /\s+/,
  ),
)
const FOREIGN = /(?![ñáéíóúü])[^\P{L}a-z]/iu
const FEWEST_WORDS = 8
const LEAST_SHARE = 0.12

/** Whether a text of eight words or more is loose words, with hardly any that would hold a sentence together. Other languages, told by their letters, aren't looked at. */
export function isLooseWords(text: string): boolean {
  if (FOREIGN.test(text.normalize('NFC'))) return false
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
  const words = plain.replace(/\S*[@/]\S*|\S+\.\S+/g, ' ').match(/\p{L}+/gu) ?? []
  const ours = words.filter(word => /^[a-z]+$/.test(word))
  if (ours.length < FEWEST_WORDS) return false
  return ours.filter(word => HOLDS_TOGETHER.has(word)).length / ours.length < LEAST_SHARE
}
