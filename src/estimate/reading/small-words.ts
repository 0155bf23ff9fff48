export const aboutBefore =
  /(?:~|≈|(?:about|abt|approx|approximately|around|roughly|circa|ca|c|maybe|some|say|almost|nearly|close to|just (?:over|under)|a (?:little|bit) (?:over|under|more than|less than)|unos|unas|como|aprox|aproximadamente|cerca de|alrededor de|mas o menos|casi|poco (?:mas|menos) de)\.?(?![a-z]))/y
export const aboutAfter =
  /,? ?(?:\?|-?ish|or so|give or take|more or less|approx|about|roughly|aprox|mas o menos|aproximadamente)\.?(?![a-z])/y
export const fromWord = /(?:from|between|entre|de)(?![a-z])/y
/** One letter joins two figures only where it stands alone: '3y3' is none of these. */
export const toWord = /-|(?:to|or|and|hasta)(?![a-z])|(?<= )[ao](?= )/y
/** Only after 'entre' or 'de': '3 y 3' may be yards. */
export const toAfterFrom = /(?<= )y(?= )/y
export const byWord = /x|(?:by|por)(?![a-z])/y

/** What a figure is of, said after it; without a unit before them `inWords` could be inches. */
export const lengthTail =
  /(?:long|wide|across|deep|de largo|de ancho|de fondo|de diametro|de longitud|largo|ancho)(?![a-z])/y
/** '2 ft circle' and '12 ft diameter' in the box that asks how far it is across. */
export const circleTail = /(?:circles?|circulos?|diamet(?:er|ro))(?![a-z])/y
export const inWords = /in (?:length|width|diameter)(?![a-z])/y
export const depthTail =
  /(?:deep|thick|de profundidad|de grosor|de espesor|de hondo|profundo|in depth)(?![a-z])/y
export const volumeTail =
  /(?:of|de) (?:[a-z]+ ){0,2}(?:mulch|bark|compost|soil|topsoil|stone|rock|gravel|straw|wood|chips|nuggets|mantillo|corteza|composta|tierra|piedra|grava|paja|astillas|acolchado)(?![a-z])/y
/** A number of bags, and the bag's volume after it. */
export const bagsAfter = /(?:bags?|sacks?|bolsas?|sacos?|costales|costal)(?![a-z])/y
export const eachAfter = /(?:each|apiece|cada un[oa])(?![a-z])/y
export const bagsOf = /(?:bags?|sacks?|bolsas?|sacos?|costales|costal)(?: of| de)?(?![a-z])/y
