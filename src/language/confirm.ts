export const en = {
  'confirm.title': 'Is this your email address?',
  'confirm.came': 'Someone gave it to us with request {number}. We don’t know yet if it’s right.',
  'confirm.then':
    'If it’s yours, press the button. We’ll email you what was sent: the name, the address, the note, the price range, and a link to the request. After that, our emails will have your name and address.',
  'confirm.yes': 'Yes, it’s mine',
  'confirm.not-mine': 'Didn’t send us anything?',
  'confirm.do-nothing':
    'Then someone typed your email address, maybe by mistake. You don’t need to do anything. We won’t email you what they typed. You may still get an email about a visit, a price, or a day for this request.',
  'confirm.done': 'Thank you. Your email address is confirmed, and we’re emailing you what you sent.',
}

export const es: Record<keyof typeof en, string> = {
  'confirm.title': '¿Es este su correo electrónico?',
  'confirm.came': 'Nos lo dieron con la solicitud {number}. Todavía no sabemos si es correcto.',
  'confirm.then':
    'Si es suyo, oprima el botón. Le enviaremos por correo lo que se mandó: el nombre, la dirección, la nota, el rango de precio y un enlace a la solicitud. Después, nuestros correos dirán su nombre y su dirección.',
  'confirm.yes': 'Sí, es el mío',
  'confirm.not-mine': '¿Usted no nos envió nada?',
  'confirm.do-nothing':
    'Entonces alguien escribió su correo, quizá por error. Usted no tiene que hacer nada. No le enviaremos lo que esa persona escribió. Quizá le llegue un correo sobre una visita, un precio o un día para esta solicitud.',
  'confirm.done': 'Gracias. Su correo está confirmado, y ya le enviamos lo que usted mandó.',
}
