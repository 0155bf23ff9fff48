import type { FaultKey } from '../estimate/job/fault-keys.ts'

/** What is wrong with a field of a bed, by the keys the estimate gives; what was expected is always said. */
export const en = {
  'fault.too-long': 'That’s too long for a measurement. Please write just the number and its unit.',
  'fault.falls': '“{typed}” goes from larger to smaller. Write the smaller number first, such as 6-12.',
  'fault.is-area': '“{typed}” is an area. Give a length here, or choose “I know the area.”',
  'fault.is-volume': '“{typed}” is a volume. Give a length here, or choose “I know the volume.”',
  'fault.length-missing': 'Please give this size, such as 12, 12 1/2 or 12\' 6".',
  'fault.length-unreadable':
    'We couldn’t read “{typed}” as a length. Write it like 12, 12 1/2, 12\' 6", 4 yd, 3.8 m, about 20 or 20-25.',
  'fault.length-not-positive': 'A length must be more than zero.',
  'fault.length-absurd': 'That’s longer than any bed: {most} at most.',
  'fault.depth-missing': 'Please give a depth, such as 3 or 2 1/2.',
  'fault.depth-unreadable': 'We couldn’t read “{typed}” as a depth. Write it like 3, 2 1/2, 3 in or 8 cm.',
  'fault.depth-not-positive': 'A depth must be more than zero.',
  'fault.depth-absurd': 'That’s deeper than any bed: {most} at most.',
  'fault.area-missing': 'Please give the area, such as 100 or 100 sq ft.',
  'fault.area-unreadable': 'We couldn’t read “{typed}” as an area. Write it like 100, 100 sq ft or 10 m².',
  'fault.area-not-positive': 'An area must be more than zero.',
  'fault.area-absurd': 'That’s larger than any bed: {most} at most.',
  'fault.volume-missing': 'Please give the volume, such as 2 cubic yards.',
  'fault.volume-unit': '“{typed}” of what? Add the unit, such as cubic yards, cubic feet, m³, or liters.',
  'fault.volume-unreadable':
    'We couldn’t read “{typed}” as a volume. Write it like 2 cubic yards, 50 cubic feet, 1.5 m³ or 800 l.',
  'fault.volume-not-positive': 'A volume must be more than zero.',
  'fault.volume-absurd': 'That’s more than any bed takes: {most} at most.',
  'fault.other-side':
    '“{typed}” doesn’t sound like the side this box is for. Move it to the other box, or take the word out.',
  'fault.size-twice': 'This size is here twice. Leave this box empty, or write one size in each box.',
  'fault.offsets-few': 'Give two widths or more, one at each end. Any of them can be 0.',
  'fault.offsets-more': 'So few widths tell too little about this bed. Give more of them, closer together.',
  'fault.offsets-zero': 'At least one width must be more than 0.',
  'fault.offsets-count': 'Give one more width than distances: one at each end of every distance.',
  'fault.spacings-zero': 'The distance between two widths can’t be 0.',
  'fault.radii-few': 'Give eight distances or more, at equal angles around the stake.',
  'fault.radii-zero': 'A distance to the edge can’t be 0.',
  'fault.list-long': 'One list can have {most} numbers at most.',
  'fault.sides': 'These three sides can’t meet. The longest must be shorter than the other two together.',
  'fault.sides-flat':
    'This triangle is too flat to measure by its sides. Choose “Triangle,” and give one side and the distance straight across from it.',
  'fault.sides-tape':
    'Three sides tell the area only if a tape measured them. Choose “Triangle,” and give one side and the distance straight across from it.',
  'fault.cut-length': 'The cut-out corner must be shorter than the whole length.',
  'fault.cut-width': 'The cut-out corner must be narrower than the whole width.',
  'fault.ring-narrow':
    'That’s too uncertain for a price range. Pick “Ring around a tree” and say how wide it is.',
  'fault.l-shape-narrow':
    'That’s too uncertain for a price range. Pick “L-shaped” and say how long and wide each arm is.',
  'fault.arm-width': 'The second arm can’t be wider than the first one is long.',
  'fault.ring-inner': 'The inner distance across must be smaller than the outer one.',
  'fault.shape': 'Please choose a shape: {choices}.',
  'fault.count': 'How many like this? A whole number from 1 to {most}.',
  'fault.measured-by': 'Please say how it was measured: {choices}.',
  'fault.planted': 'Please say how full of plants the bed is: {choices}.',
  'fault.planted-unsure':
    'Plants take up too much of this bed to give a price for the rest. Describe only the open part, as a bed of its own.',
  'fault.too-unsure':
    'These sizes leave too much open for an honest price. Use a tape measure, or split the bed into simpler shapes.',
  'fault.lying':
    'Please say how much old mulch is there: bare, thin, fair, thick, unsure, or a depth such as 1 or 1/2.',
  'fault.finish': 'Please choose a material: {choices}.',
  'fault.finish-sold-out': 'Sold out right now: {finish}. Closest: {closest}.',
  'fault.no-extras': 'We don’t offer extras. Please leave them out.',
  'fault.too-many-extras': 'At most 100 extras at a time.',
  'fault.extra': 'We don’t know this extra. Choose from: {choices}.',
  'fault.extra-group': 'You already chose {other}. A bed gets one of the two.',
  'fault.extra-job-group': '{other} is chosen for the whole job. A bed gets one of the two.',
  'fault.layer': 'Pick one of the materials, or leave this layer out.',
  'fault.layer-deep': 'It has no depth of its own. Leave this empty.',
  'fault.layers': 'Leave this out for what usually lies beneath, or say none.',
  'fault.layers-too-many': 'A bed can have {most} layers at most.',
  'fault.work': 'Please say whether it’s a top-up or new: {choices}.',
  'fault.cut-outs':
    'We couldn’t read “{typed}” as a cut-out. Write 4 x 3 ft for a rectangle, 2 ft across for a circle, or 10 sq ft for an area. For several that are alike, write 3 of 2 ft. Put semicolons between different ones.',
  'fault.cut-outs-large': 'What’s cut out must be smaller than the bed.',
  'fault.cut-outs-unsure':
    'So much is cut out that we can’t tell how much is left. Use a tape measure, or describe what’s left as separate beds.',
  'fault.cut-outs-many': 'At most {most} kinds of cut-outs. Use “3 of 2 ft” for those that are alike.',
  'fault.cut-outs-volume': 'Nothing can be cut out of a volume. Leave this empty.',
  'fault.no-edge': 'That’s longer than the whole edge of this bed.',
  'fault.no-edge-unknown': 'The area or volume of a bed doesn’t tell us its edge. Leave this empty.',
  'fault.stairs': 'How many stairs? A whole number from 0 to {most}.',
  'fault.slope': 'How does the bed lie? {choices}.',
  'fault.gate': 'Is the gate wide enough for a wheelbarrow? {choices}.',
  'fault.postcode': 'Please write this as you would on an envelope, or leave it empty.',
  'fault.beds-missing': 'Please describe at least one bed.',
  'fault.figures-too-many': 'At most {most} numbers at a time. Send the beds in two parts.',
  'fault.beds-too-many': 'At most {most} beds at a time. Use “How many like this?” for beds that are alike.',
} satisfies Record<FaultKey, string>

export const es: Record<keyof typeof en, string> = {
  'fault.too-long': 'Es demasiado largo para ser una medida. Escriba solo el número y su unidad.',
  'fault.falls': '«{typed}» va de más a menos. Escriba primero el número menor, como 6-12.',
  'fault.is-area': '«{typed}» es un área. Escriba aquí un largo, o elija «Sé el área».',
  'fault.is-volume': '«{typed}» es un volumen. Escriba aquí un largo, o elija «Sé el volumen».',
  'fault.length-missing': 'Escriba esta medida, por ejemplo 12, 12 1/2 o 12\' 6".',
  'fault.length-unreadable':
    'No pudimos leer «{typed}» como un largo. Escríbalo así: 12, 12 1/2, 12\' 6", 3.8 m, unos 20 o 20-25.',
  'fault.length-not-positive': 'Una medida debe ser mayor que cero.',
  'fault.length-absurd': 'Es más largo que cualquier jardinera: {most} como máximo.',
  'fault.depth-missing': 'Escriba el grosor, por ejemplo 3 o 2 1/2.',
  'fault.depth-unreadable':
    'No pudimos leer «{typed}» como un grosor. Escríbalo así: 3, 2 1/2, 3 pulg u 8 cm.',
  'fault.depth-not-positive': 'El grosor debe ser mayor que cero.',
  'fault.depth-absurd': 'Es más grueso que en cualquier jardinera: {most} como máximo.',
  'fault.area-missing': 'Escriba el área, por ejemplo 100 o 100 pies cuadrados.',
  'fault.area-unreadable':
    'No pudimos leer «{typed}» como un área. Escríbala así: 100, 100 pies cuadrados o 10 m².',
  'fault.area-not-positive': 'El área debe ser mayor que cero.',
  'fault.area-absurd': 'Es más grande que cualquier jardinera: {most} como máximo.',
  'fault.volume-missing': 'Escriba el volumen, por ejemplo 2 yardas cúbicas.',
  'fault.volume-unit': '¿«{typed}» de qué? Agregue la unidad: yardas cúbicas, pies cúbicos, m³ o litros.',
  'fault.volume-unreadable':
    'No pudimos leer «{typed}» como un volumen. Escríbalo así: 2 yardas cúbicas, 50 pies cúbicos, 1.5 m³ u 800 l.',
  'fault.volume-not-positive': 'El volumen debe ser mayor que cero.',
  'fault.volume-absurd': 'Es más de lo que lleva cualquier jardinera: {most} como máximo.',
  'fault.other-side':
    '“{typed}” no parece el lado de esta casilla. Páselo a la otra casilla o quite la palabra.',
  'fault.size-twice':
    'Esta medida está dos veces. Deje esta casilla vacía o escriba una medida en cada casilla.',
  'fault.offsets-few': 'Dé dos anchos o más, uno en cada extremo. Cualquiera puede ser 0.',
  'fault.offsets-more':
    'Tan pocos anchos dicen muy poco de esta jardinera. Dé más, a menor distancia entre sí.',
  'fault.offsets-zero': 'Al menos un ancho debe ser mayor que 0.',
  'fault.offsets-count': 'Dé un ancho más que distancias: uno en cada extremo de cada distancia.',
  'fault.spacings-zero': 'La distancia entre dos anchos no puede ser 0.',
  'fault.radii-few': 'Dé ocho distancias o más, a ángulos iguales alrededor de la estaca.',
  'fault.radii-zero': 'Una distancia al borde no puede ser 0.',
  'fault.list-long': 'Una lista puede tener {most} números como máximo.',
  'fault.sides': 'Estos tres lados no se juntan. El más largo debe medir menos que los otros dos juntos.',
  'fault.sides-flat':
    'Este triángulo es demasiado plano para medirlo por sus lados. Elija «Triángulo» y dé un lado y la distancia en línea recta hasta la esquina de enfrente.',
  'fault.sides-tape':
    'Tres lados solo dan el área si se midieron con cinta. Elija «Triángulo» y dé un lado y la distancia en línea recta hasta la esquina de enfrente.',
  'fault.cut-length': 'La esquina recortada debe ser más corta que el largo total.',
  'fault.cut-width': 'La esquina recortada debe ser más angosta que el ancho total.',
  'fault.ring-narrow':
    'Es demasiado inseguro para un rango de precio. Elija «Anillo alrededor de un árbol» y diga qué ancho tiene.',
  'fault.l-shape-narrow':
    'Es demasiado inseguro para un rango de precio. Elija «En forma de L» y diga el largo y el ancho de cada brazo.',
  'fault.arm-width': 'El segundo brazo no puede ser más ancho que el largo del primero.',
  'fault.ring-inner': 'El diámetro interior debe ser menor que el exterior.',
  'fault.shape': 'Elija una forma: {choices}.',
  'fault.count': '¿Cuántas iguales? Un número entero de 1 a {most}.',
  'fault.measured-by': 'Diga cómo se midió: {choices}.',
  'fault.planted': 'Diga qué tan llena de plantas está la jardinera: {choices}.',
  'fault.planted-unsure':
    'Las plantas ocupan demasiado para dar un precio del resto. Describa solo la parte libre, como una jardinera aparte.',
  'fault.too-unsure':
    'Estas medidas dejan demasiado abierto para dar un precio honesto. Use una cinta métrica, o divida la jardinera en formas más simples.',
  'fault.lying':
    'Diga cuánto mantillo viejo hay: bare (nada), thin (poco), fair (mediano), thick (mucho), unsure (no sé), o un grosor como 1 o 1/2.',
  'fault.finish': 'Elija un material: {choices}.',
  'fault.finish-sold-out': 'Agotado por ahora: {finish}. Lo más parecido: {closest}.',
  'fault.no-extras': 'No ofrecemos extras. Quítelos, por favor.',
  'fault.too-many-extras': 'Como máximo 100 extras a la vez.',
  'fault.extra': 'No conocemos este extra. Elija entre: {choices}.',
  'fault.extra-group': 'Ya eligió {other}. Una jardinera lleva uno de los dos.',
  'fault.extra-job-group': '{other} se eligió para todo el trabajo. Una jardinera lleva uno de los dos.',
  'fault.layer': 'Elija uno de los materiales o quite esta capa.',
  'fault.layer-deep': 'No tiene grosor propio. Déjelo vacío.',
  'fault.layers': 'No lo incluya para lo que va debajo normalmente, o diga none (nada).',
  'fault.layers-too-many': 'Una jardinera puede tener {most} capas como máximo.',
  'fault.work': 'Diga si se completa (top-up) o es nueva (new): {choices}.',
  'fault.cut-outs':
    'No pudimos leer «{typed}» como un hueco. Escriba 4 x 3 pies para un rectángulo, 2 pies de diámetro para un círculo o 10 pies cuadrados para un área. Para varios iguales, escriba 3 de 2 pies. Ponga punto y coma entre los distintos.',
  'fault.cut-outs-large': 'Los huecos deben ser más pequeños que la jardinera.',
  'fault.cut-outs-unsure':
    'Se quita tanto que no sabemos cuánto queda. Mida con cinta métrica o describa lo que queda como jardineras aparte.',
  'fault.cut-outs-many': 'Como máximo {most} clases de huecos. Use «3 de 2 pies» para los que son iguales.',
  'fault.cut-outs-volume': 'De un volumen no se puede quitar nada. Deje esta casilla vacía.',
  'fault.no-edge': 'Es más largo que todo el borde de esta jardinera.',
  'fault.no-edge-unknown': 'El área o el volumen no dice cuánto mide el borde. Deje esta casilla vacía.',
  'fault.stairs': '¿Cuántos escalones? Un número entero de 0 a {most}.',
  'fault.slope': '¿Cómo está el terreno? {choices}.',
  'fault.gate': '¿Cabe una carretilla por la puerta? {choices}.',
  'fault.postcode': 'Escríbalo como en un sobre, o deje la casilla vacía.',
  'fault.beds-missing': 'Describa al menos una jardinera.',
  'fault.figures-too-many': 'Como máximo {most} números a la vez. Envíe las jardineras en dos partes.',
  'fault.beds-too-many': 'Como máximo {most} jardineras a la vez. Use «¿Cuántas iguales?» para las iguales.',
}
