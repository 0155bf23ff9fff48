import type { CautionCode } from '../estimate/table/caution.ts'

/** Warnings by the codes the estimate gives. Each defers to whoever really decides; {figure} is the owner's setting. */
export const en = {
  'caution.depth-over':
    'Bed {bed}: {depth} is deeper than is advised for this finish ({greatest} at most). Too deep a layer can harm roots.',
  'caution.depth-under': 'Bed {bed}: {depth} is thinner than is usual for this finish ({least} at least).',
  'caution.large-size': 'Bed {bed}: {size} is very large for a bed. Is that right?',
  'caution.postcode-not-served':
    '{postcode} is not on our list of places we come to. We will say whether we can; travel is not in this price.',
  'caution.edge-unknown':
    'The edge of a bed given by its area or volume isn’t known, so it is not in this price. We will measure it.',
  'caution.fire':
    'This finish can burn. Some fire codes keep it {figure} or more from walls that burn, and more in wildfire country: ask your local fire department.',
  'caution.clearance':
    'Nothing is laid against trunks or siding: some of the wall ({figure} is one advice) stays visible. Your pest-control firm or extension office can say what applies to you.',
  'caution.payload':
    'About {weight} when wet. What a truck may carry stands on its door placard; the driver decides.',
  'caution.digging':
    'Cutting an edge is digging: call before digging, so that the utility service can mark its lines. The rules differ from state to state.',
} satisfies Record<`caution.${CautionCode}`, string>

export const es: Record<keyof typeof en, string> = {
  'caution.depth-over':
    'Macizo {bed}: {depth} es más profundo de lo que se aconseja para este acabado (como máximo {greatest}). Una capa muy gruesa puede dañar las raíces.',
  'caution.depth-under':
    'Macizo {bed}: {depth} es más delgado de lo habitual para este acabado (como mínimo {least}).',
  'caution.large-size': 'Macizo {bed}: {size} es muy grande para un macizo. ¿Es correcto?',
  'caution.postcode-not-served':
    '{postcode} no está en la lista de lugares adonde vamos. Le diremos si podemos ir; el viaje no está en este precio.',
  'caution.edge-unknown':
    'No se conoce el borde de un macizo dado por su área o volumen; no está en este precio. Lo mediremos.',
  'caution.fire':
    'Este acabado puede arder. Algunos códigos de incendios lo mantienen a {figure} o más de las paredes que arden, y más en zonas de incendios forestales: pregunte a los bomberos locales.',
  'caution.clearance':
    'No se pone nada contra los troncos ni las paredes: una parte de la pared (un consejo es {figure}) queda a la vista. Su empresa de control de plagas o la oficina de extensión puede decirle qué corresponde.',
  'caution.payload':
    'Cerca de {weight} mojado. Lo que un camión puede cargar está en la placa de su puerta; decide el conductor.',
  'caution.digging':
    'Cortar un borde es cavar: llame antes de cavar, para que el servicio público marque sus líneas. Las reglas cambian de un estado a otro.',
}
