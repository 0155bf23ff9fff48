/** What is wrong with a field of a bed, by the keys the estimate gives; what was expected is always said. */
export const faultsEn = {
  'fault.too-long': 'That is too long to be a measurement. Please write just the number and its unit.',
  'fault.length-missing': 'Please give this size, such as 12, 12 1/2 or 12\' 6".',
  'fault.length-unreadable':
    'We couldn’t read “{typed}” as a length. Write it as 12, 12 1/2, 12\' 6", 4 yd, 3.8 m, about 20 or 20-25.',
  'fault.length-not-positive': 'A length must be more than zero.',
  'fault.length-absurd': 'That is longer than any bed: at most {most}.',
  'fault.depth-missing': 'Please give a depth, such as 3 or 2 1/2.',
  'fault.depth-unreadable': 'We couldn’t read “{typed}” as a depth. Write it as 3, 2 1/2, 3 in or 8 cm.',
  'fault.depth-not-positive': 'A depth must be more than zero.',
  'fault.depth-absurd': 'That is deeper than any bed: at most {most}.',
  'fault.area-missing': 'Please give the area, such as 100 or 100 sq ft.',
  'fault.area-unreadable': 'We couldn’t read “{typed}” as an area. Write it as 100, 100 sq ft or 10 m².',
  'fault.area-not-positive': 'An area must be more than zero.',
  'fault.area-absurd': 'That is larger than any bed: at most {most}.',
  'fault.volume-missing': 'Please give the volume, such as 2 cubic yards.',
  'fault.volume-unreadable':
    'We couldn’t read “{typed}” as a volume. Write it as 2 cubic yards, 50 cubic feet, 1.5 m³ or 800 l.',
  'fault.volume-not-positive': 'A volume must be more than zero.',
  'fault.volume-absurd': 'That is more than any bed takes: at most {most}.',
  'fault.size-twice': 'This size was given twice: leave this box empty, or write one size in each box.',
  'fault.sides': 'These three sides can’t meet: the longest must be shorter than the other two together.',
  'fault.cut-length': 'The corner cut out must be shorter than the whole length.',
  'fault.cut-width': 'The corner cut out must be narrower than the whole width.',
  'fault.ring-inner': 'The inner distance across must be smaller than the outer one.',
  'fault.shape': 'Please choose a shape: {choices}.',
  'fault.count': 'How many like this? A whole number from 1 to {most}.',
  'fault.measured-by': 'Please say how it was measured: {choices}.',
  'fault.planted': 'Please say how much of the bed is planted: {choices}.',
  'fault.lying':
    'Please say what lies there now: bare, thin, fair, thick, unsure, or a depth such as 1 or 1/2.',
  'fault.finish': 'Please choose a finish: {choices}.',
  'fault.no-extras': 'No extras are offered: leave them out.',
  'fault.too-many-extras': 'At most 100 extras at a time.',
  'fault.extra': 'We don’t know this extra. Choose from: {choices}.',
  'fault.postcode': 'Please write a ZIP or postcode, or leave it empty.',
  'fault.beds-missing': 'Please describe at least one bed.',
  'fault.beds-too-many': 'At most {most} beds at a time. Use “how many like this” for beds that are alike.',
}

export const faultsEs: Record<keyof typeof faultsEn, string> = {
  'fault.too-long': 'Es demasiado largo para ser una medida. Escriba solo el número y su unidad.',
  'fault.length-missing': 'Escriba esta medida, por ejemplo 12, 12 1/2 o 12\' 6".',
  'fault.length-unreadable':
    'No pudimos leer «{typed}» como un largo. Escríbalo así: 12, 12 1/2, 12\' 6", 3,8 m, unos 20 o 20-25.',
  'fault.length-not-positive': 'Una medida debe ser mayor que cero.',
  'fault.length-absurd': 'Es más largo que cualquier macizo: como máximo {most}.',
  'fault.depth-missing': 'Escriba una profundidad, por ejemplo 3 o 2 1/2.',
  'fault.depth-unreadable':
    'No pudimos leer «{typed}» como una profundidad. Escríbala así: 3, 2 1/2, 3 in u 8 cm.',
  'fault.depth-not-positive': 'Una profundidad debe ser mayor que cero.',
  'fault.depth-absurd': 'Es más profundo que cualquier macizo: como máximo {most}.',
  'fault.area-missing': 'Escriba el área, por ejemplo 100 o 100 pies cuadrados.',
  'fault.area-unreadable':
    'No pudimos leer «{typed}» como un área. Escríbala así: 100, 100 pies cuadrados o 10 m².',
  'fault.area-not-positive': 'Un área debe ser mayor que cero.',
  'fault.area-absurd': 'Es más grande que cualquier macizo: como máximo {most}.',
  'fault.volume-missing': 'Escriba el volumen, por ejemplo 2 yardas cúbicas.',
  'fault.volume-unreadable':
    'No pudimos leer «{typed}» como un volumen. Escríbalo así: 2 yardas cúbicas, 50 pies cúbicos, 1,5 m³ u 800 l.',
  'fault.volume-not-positive': 'Un volumen debe ser mayor que cero.',
  'fault.volume-absurd': 'Es más de lo que lleva cualquier macizo: como máximo {most}.',
  'fault.size-twice':
    'Esta medida se dio dos veces: deje esta casilla vacía o escriba una medida en cada casilla.',
  'fault.sides': 'Estos tres lados no se juntan: el más largo debe medir menos que los otros dos juntos.',
  'fault.cut-length': 'La esquina recortada debe ser más corta que el largo total.',
  'fault.cut-width': 'La esquina recortada debe ser más estrecha que el ancho total.',
  'fault.ring-inner': 'El diámetro interior debe ser menor que el exterior.',
  'fault.shape': 'Elija una forma: {choices}.',
  'fault.count': '¿Cuántos como este? Un número entero de 1 a {most}.',
  'fault.measured-by': 'Diga cómo se midió: {choices}.',
  'fault.planted': 'Diga cuánto del macizo está plantado: {choices}.',
  'fault.lying':
    'Diga qué hay ahora: bare (nada), thin (poco), fair (regular), thick (mucho), unsure (no sé), o una profundidad como 1 o 1/2.',
  'fault.finish': 'Elija un acabado: {choices}.',
  'fault.no-extras': 'No se ofrecen extras: déjelos fuera.',
  'fault.too-many-extras': 'Como máximo 100 extras a la vez.',
  'fault.extra': 'No conocemos este extra. Elija entre: {choices}.',
  'fault.postcode': 'Escriba un código postal o deje la casilla vacía.',
  'fault.beds-missing': 'Describa al menos un macizo.',
  'fault.beds-too-many':
    'Como máximo {most} macizos a la vez. Use «cuántos como este» para los que son iguales.',
}
