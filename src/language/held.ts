export const en = {
  'held.subject': 'Did you ask {business} for a price?',
  'held.mail':
    'We got a request with this email address, number {number}, and aren’t sure that a person sent it. If it was you, please open the link and press the button. Then we’ll get to work on it.',
  'held.mail-not-you': 'If it wasn’t you, you don’t need to do anything.',
  'held.mail-link': 'Yes, it was me',
  'held.text': 'Did you send us request {number}? If so, please confirm it here:',
  'held.title': 'Did you ask us for a price?',
  'held.came': 'We got request {number}, and aren’t sure that a person sent it.',
  'held.yes': 'Yes, I sent it',
  'held.do-nothing': 'Then you don’t need to do anything. Nobody can see this page but you.',
  'held.done': 'Thank you. Your request is in our hands now.',
}

export const es: Record<keyof typeof en, string> = {
  'held.subject': '¿Le pidió usted un precio a {business}?',
  'held.mail':
    'Recibimos una solicitud con este correo, la número {number}, y no estamos seguros de que la envió una persona. Si fue usted, abra el enlace y oprima el botón. Entonces empezamos a trabajar en ella.',
  'held.mail-not-you': 'Si no fue usted, no tiene que hacer nada.',
  'held.mail-link': 'Sí, fui yo',
  'held.text': '¿Nos envió usted la solicitud {number}? Si fue así, confírmela aquí:',
  'held.title': '¿Nos pidió usted un precio?',
  'held.came': 'Recibimos la solicitud {number} y no estamos seguros de que la envió una persona.',
  'held.yes': 'Sí, la envié yo',
  'held.do-nothing': 'Entonces no tiene que hacer nada. Nadie más que usted puede ver esta página.',
  'held.done': 'Gracias. Su solicitud ya está en nuestras manos.',
}
