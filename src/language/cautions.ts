import type { CautionCode } from '../estimate/table/caution.ts'

/** Warnings by the codes the estimate gives. Each defers to whoever really decides; {figure} is the owner's setting. */
export const en = {
  'caution.depth-over':
    'Bed {bed}: {depth} is deeper than recommended for this material ({greatest} at most). A layer that’s too thick can harm roots.',
  'caution.depth-under': 'Bed {bed}: {depth} is thinner than usual for this material ({least} or more).',
  'caution.large-size': 'Bed {bed}: {size} is very large for a bed. Is that right?',
  'caution.postcode-not-served':
    '{postcode} is outside our usual area. We’ll tell you whether we can come. This price doesn’t include travel.',
  'caution.edge-unknown':
    'The area or volume of a bed doesn’t tell us how long its edge is, so the edge isn’t in this price. We’ll measure it.',
  'caution.fire':
    'This material can burn. Some fire codes require {figure} or more between it and walls that can burn, and more in wildfire country. Ask your local fire department.',
  'caution.clearance':
    'We keep material away from trunks and siding, and leave some of the wall showing. One source recommends {figure}. Your pest-control company or extension office can tell you what’s right for your house.',
  'caution.trunks':
    'We keep material {figure} or more away from trunks and stems. Piled against the bark, it can rot it.',
  'caution.cocoa':
    'Cocoa hulls can poison dogs that eat them. If a dog can get to these beds, ask your vet, or pick another material.',
  'caution.weed-killer':
    'Using weed killer for pay takes a license. Ask your state’s department of agriculture what you need.',
  'caution.lifting':
    'One weighs about {weight} when wet. {figure} is the most for one person, and only close to the body, at waist height. Lift heavier ones in pairs.',
  'caution.pile':
    'A big pile of loose mulch can heat up and catch fire. Keep it away from buildings, and spread it soon. Your fire department knows the local rules.',
  'caution.payload':
    'It weighs about {weight} when wet. The placard on a truck’s door says how much it can carry, and the driver decides.',
  'caution.digging':
    'Cutting an edge means digging. Call before you dig, so that utility lines can be marked. The rules differ from state to state.',
} satisfies Record<`caution.${CautionCode}`, string>

export const es: Record<keyof typeof en, string> = {
  'caution.depth-over':
    'Jardinera {bed}: {depth} es más de lo que se aconseja para este material ({greatest} como máximo). Una capa muy gruesa puede dañar las raíces.',
  'caution.depth-under':
    'Jardinera {bed}: {depth} es menos de lo habitual para este material ({least} o más).',
  'caution.large-size': 'Jardinera {bed}: {size} es muy grande para una jardinera. ¿Es correcto?',
  'caution.postcode-not-served':
    '{postcode} está fuera de nuestra zona habitual. Le diremos si podemos ir. Este precio no incluye el traslado.',
  'caution.edge-unknown':
    'El área o el volumen de una jardinera no dice cuánto mide su borde, así que este precio no lo incluye. Lo mediremos.',
  'caution.fire':
    'Este material puede arder. Algunos códigos de incendios piden dejarlo a {figure} o más de las paredes que pueden arder. En zonas de incendios forestales piden más distancia: pregunte a los bomberos de su localidad.',
  'caution.clearance':
    'No ponemos material contra los troncos ni las paredes, y dejamos parte de la pared a la vista: una fuente aconseja {figure}. Su empresa de control de plagas o la oficina de extensión agrícola puede decirle qué corresponde.',
  'caution.trunks':
    'Dejamos el material a {figure} o más de los troncos y tallos. Amontonado contra la corteza, puede pudrirla.',
  'caution.cocoa':
    'La cáscara de cacao puede envenenar a los perros que la comen. Si un perro puede llegar a estas jardineras, pregunte a su veterinario o elija otro material.',
  'caution.weed-killer':
    'Para usar herbicida por pago hace falta una licencia. Pregunte al departamento de agricultura de su estado qué necesita.',
  'caution.lifting':
    'Una pesa cerca de {weight} cuando está mojada. {figure} es lo máximo para una persona, y solo cerca del cuerpo y a la altura de la cintura. Las más pesadas, levántenlas entre dos.',
  'caution.pile':
    'Una pila grande de mantillo suelto puede calentarse e incendiarse. Déjela lejos de los edificios y repártala pronto. Los bomberos conocen las reglas locales.',
  'caution.payload':
    'Pesa cerca de {weight} cuando está mojado. La placa de la puerta del camión dice cuánto puede cargar, y decide el conductor.',
  'caution.digging':
    'Para cortar un borde hay que excavar. Llame antes de excavar, para que marquen las líneas subterráneas. Las reglas cambian de un estado a otro.',
}
