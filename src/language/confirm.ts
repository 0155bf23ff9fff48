export const en = {
  'confirm.title': 'Is this your email address?',
  'confirm.came': 'It came with request {number}, and we don’t know yet whether it’s right.',
  'confirm.then':
    'If it’s yours, press the button. We’ll email you what was sent: the name, the address, the note, and the price range, with the link to its page. Later emails will have your name and address too.',
  'confirm.yes': 'Yes, it’s mine',
  'confirm.not-mine': 'Didn’t send us anything?',
  'confirm.do-nothing':
    'Then someone typed your email address, maybe by mistake, and there’s nothing you have to do. We never email you what they typed. You may only hear of a visit, a price, or a day for this request.',
  'confirm.done': 'Thank you. Your email address is confirmed, and we’re emailing you what you sent.',
}

export const es: Record<keyof typeof en, string> = {
  'confirm.title': '¿Es este su correo electrónico?',
  'confirm.came': 'Llegó con la solicitud {number}, y todavía no sabemos si es el correcto.',
  'confirm.then':
    'Si es suyo, oprima el botón. Le enviaremos por correo lo que se mandó: el nombre, la dirección, la nota y el rango de precio, con el enlace a su página. Los correos siguientes también dirán su nombre y su dirección.',
  'confirm.yes': 'Sí, es el mío',
  'confirm.not-mine': '¿Usted no nos envió nada?',
  'confirm.do-nothing':
    'Entonces alguien escribió su correo, quizá por error, y usted no tiene que hacer nada. Nunca le enviaremos lo que esa persona escribió. Solo le avisaremos si hay una visita, un precio o un día para esta solicitud.',
  'confirm.done': 'Gracias. Su correo está confirmado, y ya le enviamos lo que usted mandó.',
}
