/** Short: a text message in another alphabet than ours has room for 134 characters, the link being half of them. */
export const en = {
  'text.received': 'We have your request {number}:',
  'text.own-link': 'Your request {number}:',
  'text.visit': 'We’re coming {when}. {number}:',
  'text.visit-off': 'The visit for request {number} is canceled:',
  'text.canceled': 'Request {number} is canceled:',
  'text.turned-down': 'We’re sorry, we can’t do request {number}:',
  'text.taken-back': 'We can do request {number} after all:',
  'text.quote': 'Your firm price, {number}: {total}.',
  'text.quote-again': 'Your new price, {number}: {total}.',
  'text.booked': 'Booked: {day}. {number}:',
}

export const es: Record<keyof typeof en, string> = {
  'text.received': 'Recibimos su solicitud {number}:',
  'text.own-link': 'Su solicitud {number}:',
  'text.visit': 'Iremos {when}. {number}:',
  'text.visit-off': 'Visita cancelada, solicitud {number}:',
  'text.canceled': 'Solicitud {number} cancelada:',
  'text.turned-down': 'Lo sentimos, no podemos hacer la solicitud {number}:',
  'text.taken-back': 'Sí podemos hacer su solicitud {number}:',
  'text.quote': 'Su precio definitivo, {number}: {total}.',
  'text.quote-again': 'Su nuevo precio, {number}: {total}.',
  'text.booked': 'Reservado: {day}. {number}:',
}
