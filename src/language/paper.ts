export const en = {
  'paper.save': 'Save it as a PDF',
  'paper.file': 'Price {number}',
  'paper.page': 'Page {page} of {pages}',
  'paper.made': '{quote}, written on {day}',
  'paper.chosen': '{way} (in this price)',
  'paper.way': '{way}: {by}',
  'paper.asked': 'Asked for: {days}',
  'paper.accepted': 'What was accepted',
  'paper.number': 'Request {number}',
}

export const es: Record<keyof typeof en, string> = {
  'paper.save': 'Guardarlo en PDF',
  'paper.file': 'Precio {number}',
  'paper.page': 'Página {page} de {pages}',
  'paper.made': '{quote}, con fecha del {day}',
  'paper.chosen': '{way} (en este precio)',
  'paper.way': '{way}: {by}',
  'paper.asked': 'Pedido: {days}',
  'paper.accepted': 'Lo que se aceptó',
  'paper.number': 'Solicitud {number}',
}
