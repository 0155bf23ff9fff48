export const en = {
  'mail.hello': 'Hello {name},',
  'mail.hello-nobody': 'Hello,',
  'mail.received-subject': 'We have your request {number}',
  'mail.received':
    'Thank you. We have your request {number}. We’ll get back to you within {days} business days to set up a visit or give you a firm price.',
  'mail.received-one':
    'Thank you. We have your request {number}. We’ll get back to you by the next business day to set up a visit or give you a firm price.',
  'mail.received-no-range': 'We’ll price it after we’ve seen the beds.',
  'mail.received-range':
    'For the beds you described, the work will probably cost {low} to {high}. That’s an estimate. You’ll get a firm price once we know more about the beds.',
  'mail.confirm-why':
    'We don’t know yet whether this is the right email address. Please open the link and confirm it. Then we’ll email you what you sent and a link to your request.',
  'mail.confirm-not-mine':
    'If you didn’t send us anything, you don’t need to do anything. Someone typed your email address, and we won’t email you what they typed.',
  'mail.confirm': 'Confirm your email address and see your request',
  'mail.receipt-subject': 'What you sent: request {number}',
  'mail.receipt':
    'Thank you for confirming your email address. Here is what you sent us as request {number}.',
  'mail.own-page': 'See what you sent, change your phone number, add a note, or cancel',
  'mail.visit-subject': 'We’re coming to measure: {when}',
  'mail.visit':
    'We’re coming to {street} to measure the beds for your request {number}. If that time doesn’t work for you, please call us, or leave a note on your page.',
  'mail.visit-no-place':
    'We’re coming to measure the beds for your request {number}. If that time doesn’t work for you, please call us, or leave a note on your page.',
  'mail.visit-when': 'When',
  'mail.visit-moved-subject': 'New time to measure: {when}',
  'mail.visit-off-subject': 'Visit canceled: request {number}',
  'mail.visit-off':
    'We won’t come to measure at the time we gave you. We’ll get back to you about your request {number}.',
  'mail.canceled-subject': 'Canceled: request {number}',
  'mail.canceled':
    'Your request {number} is canceled. You don’t owe anything. If you didn’t cancel it, please call us.',
  'mail.quote-subject': 'Your firm price for request {number}',
  'mail.quote': 'The beds at {street} have a firm price now.',
  'mail.quote-no-place': 'Here is the firm price for your request {number}.',
  'mail.quote-again': 'The beds at {street} have a new firm price now. It replaces the earlier one.',
  'mail.quote-again-no-place':
    'Here is a new firm price for your request {number}. It replaces the earlier one.',
  'mail.quote-total': 'Price',
  'mail.quote-holds': 'Good through',
  'mail.quote-link': 'See what’s included, accept it, and choose a day',
  'mail.booked-subject': 'Booked: {day}',
  'mail.booked': 'Thank you for accepting. Here is when we’ll come to {street} to mulch the beds.',
  'mail.booked-no-place':
    'Thank you for accepting. Here is when we’ll come to mulch the beds of your request {number}.',
  'mail.booked-day': 'Work day',
  'mail.booked-days': 'Work days',
}

export const es: Record<keyof typeof en, string> = {
  'mail.hello': 'Hola, {name}:',
  'mail.hello-nobody': 'Hola:',
  'mail.received-subject': 'Recibimos su solicitud {number}',
  'mail.received':
    'Gracias. Recibimos su solicitud {number}. En {days} días hábiles o antes nos comunicaremos con usted para acordar una visita o darle un precio definitivo.',
  'mail.received-one':
    'Gracias. Recibimos su solicitud {number}. A más tardar el próximo día hábil nos comunicaremos con usted para acordar una visita o darle un precio definitivo.',
  'mail.received-no-range': 'Le daremos un precio después de ver las jardineras.',
  'mail.received-range':
    'El trabajo en las jardineras que describió probablemente costará de {low} a {high}. Es un cálculo aproximado. Le daremos un precio definitivo cuando sepamos más de las jardineras.',
  'mail.confirm-why':
    'Todavía no sabemos si este es el correo correcto. Abra el enlace y confírmelo, por favor. Entonces le enviaremos lo que mandó y un enlace a su solicitud.',
  'mail.confirm-not-mine':
    'Si usted no nos envió nada, no tiene que hacer nada. Alguien escribió su correo, y no le enviaremos lo que esa persona escribió.',
  'mail.confirm': 'Confirme su correo y vea su solicitud',
  'mail.receipt-subject': 'Lo que envió: solicitud {number}',
  'mail.receipt': 'Gracias por confirmar su correo. Esto es lo que nos envió como solicitud {number}.',
  'mail.own-page': 'Vea lo que envió, cambie su teléfono, agregue una nota o cancele',
  'mail.visit-subject': 'Vamos a medir: {when}',
  'mail.visit':
    'Iremos a {street} a medir las jardineras de su solicitud {number}. Si la hora no le conviene, llámenos o deje una nota en su página.',
  'mail.visit-no-place':
    'Iremos a medir las jardineras de su solicitud {number}. Si la hora no le conviene, llámenos o deje una nota en su página.',
  'mail.visit-when': 'Cuándo',
  'mail.visit-moved-subject': 'Nueva hora para medir: {when}',
  'mail.visit-off-subject': 'Visita cancelada: solicitud {number}',
  'mail.visit-off':
    'No iremos a medir a la hora que le dijimos. Nos comunicaremos con usted sobre su solicitud {number}.',
  'mail.canceled-subject': 'Cancelada: solicitud {number}',
  'mail.canceled':
    'Su solicitud {number} está cancelada. No debe nada. Si usted no la canceló, llámenos, por favor.',
  'mail.quote-subject': 'Su precio definitivo para la solicitud {number}',
  'mail.quote': 'Las jardineras de {street} ya tienen un precio definitivo.',
  'mail.quote-no-place': 'Este es el precio definitivo para su solicitud {number}.',
  'mail.quote-again': 'Las jardineras de {street} tienen un nuevo precio definitivo. Reemplaza al anterior.',
  'mail.quote-again-no-place':
    'Este es un nuevo precio definitivo para su solicitud {number}. Reemplaza al anterior.',
  'mail.quote-total': 'Precio',
  'mail.quote-holds': 'Vale hasta',
  'mail.quote-link': 'Vea lo que incluye, acéptelo y elija un día',
  'mail.booked-subject': 'Reservado: {day}',
  'mail.booked': 'Gracias por aceptar. Abajo verá cuándo iremos a {street} a trabajar en las jardineras.',
  'mail.booked-no-place':
    'Gracias por aceptar. Abajo verá cuándo iremos a trabajar en las jardineras de su solicitud {number}.',
  'mail.booked-day': 'Día de trabajo',
  'mail.booked-days': 'Días de trabajo',
}
