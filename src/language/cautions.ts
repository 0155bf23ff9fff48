import type { CautionCode } from '../estimate/table/caution.ts'

/** Warnings by the codes the estimate gives. Each defers to whoever really decides; {figure} is the owner's setting. */
export const en = {
  'caution.depth-over':
    'Bed {bed}: {depth} is deeper than advised for this material ({greatest} at most). Too thick a layer can harm roots.',
  'caution.depth-under': 'Bed {bed}: {depth} is thinner than usual for this material ({least} or more).',
  'caution.large-size': 'Bed {bed}: {size} is very large for a bed. Is that right?',
  'caution.postcode-not-served':
    '{postcode} is outside our usual area. We’ll tell you whether we can come. Travel isn’t in this price.',
  'caution.edge-unknown':
    'We can’t tell the edge of a bed from its area or volume, so it isn’t in this price. We’ll measure it.',
  'caution.fire':
    'This material can burn. Some fire codes keep it {figure} or more from walls that burn, and farther in wildfire country. Ask your local fire department.',
  'caution.clearance':
    'We keep material off trunks and siding, and leave some of the wall showing: one source advises {figure}. Your pest-control company or extension office can say what applies to you.',
  'caution.payload':
    'It weighs about {weight} when wet. What a truck can carry is on its door placard, and the driver decides.',
  'caution.digging':
    'Cutting an edge is digging. Call before you dig, so the utility service can mark its lines. The rules differ from state to state.',
} satisfies Record<`caution.${CautionCode}`, string>

export const es: Record<keyof typeof en, string> = {
  'caution.depth-over':
    'Jardinera {bed}: {depth} es más de lo que se aconseja para este material ({greatest} como máximo). Una capa muy gruesa puede dañar las raíces.',
  'caution.depth-under':
    'Jardinera {bed}: {depth} es menos de lo habitual para este material ({least} o más).',
  'caution.large-size': 'Jardinera {bed}: {size} es muy grande para una jardinera. ¿Es correcto?',
  'caution.postcode-not-served':
    '{postcode} está fuera de nuestra zona habitual. Le diremos si podemos ir. El traslado no está en este precio.',
  'caution.edge-unknown':
    'El área o el volumen de una jardinera no dice cuánto mide su borde, así que no está en este precio. Lo mediremos.',
  'caution.fire':
    'Este material puede arder. Algunos códigos de incendios piden dejarlo a {figure} o más de las paredes que arden. En zonas de incendios forestales piden más distancia: pregunte a los bomberos de su localidad.',
  'caution.clearance':
    'No ponemos material contra los troncos ni las paredes, y dejamos parte de la pared a la vista: una fuente aconseja {figure}. Su empresa de control de plagas o la oficina de extensión agrícola puede decirle qué corresponde.',
  'caution.payload':
    'Pesa cerca de {weight} cuando está mojado. La placa de la puerta del camión dice cuánto puede cargar, y decide el conductor.',
  'caution.digging':
    'Cortar un borde es excavar. Llame antes de excavar, para que el servicio público marque sus líneas. Las reglas cambian de un estado a otro.',
}
