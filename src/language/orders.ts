export const en = {
  'orders.name-taken': '{name} is listed already.',
  'orders.stands': 'An order of {units} stands for that day. Cancel it before you note another.',
  'orders.past': 'That order has gone on since. This is how it stands.',
}

export const es: Record<keyof typeof en, string> = {
  'orders.name-taken': '{name} ya está en la lista.',
  'orders.stands': 'Para ese día ya hay un pedido de {units}. Cancélelo antes de anotar otro.',
  'orders.past': 'Ese pedido ya avanzó. Así está ahora.',
}
