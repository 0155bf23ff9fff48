export const en = {
  'confirm.title': 'Is this your email address?',
  'confirm.came':
    'It was given to us with request {number}, and we do not know yet whether it is the right one.',
  'confirm.then':
    'If it is yours, press the button. Then we mail you what was sent in: the name, the place, the note and the provisional range, with the link to its page. Later mails about it name you and the place too.',
  'confirm.yes': 'Yes, it is mine',
  'confirm.not-mine': 'You did not send us anything?',
  'confirm.do-nothing':
    'Then somebody has typed your address, perhaps by mistake, and you need not do anything. Nothing that was typed is ever mailed to you: no more than the time of a visit, a price or a day, where one is arranged for this request.',
  'confirm.done': 'Thank you. Your email address is confirmed, and we mail you what you sent.',
}

export const es: Record<keyof typeof en, string> = {
  'confirm.title': '¿Es esta su dirección de correo?',
  'confirm.came': 'Nos la dieron con la solicitud {number}, y todavía no sabemos si es la correcta.',
  'confirm.then':
    'Si es suya, pulse el botón. Le enviaremos por correo lo que se mandó: el nombre, el lugar, la nota y el margen provisional, con el enlace a su página. Los correos siguientes también dirán su nombre y el lugar.',
  'confirm.yes': 'Sí, es la mía',
  'confirm.not-mine': '¿Usted no nos envió nada?',
  'confirm.do-nothing':
    'Entonces alguien escribió su dirección, quizá por error, y no tiene que hacer nada. Nada de lo escrito se le enviará nunca: solo la hora de una visita, un precio o un día, si se acuerda alguno para esta solicitud.',
  'confirm.done':
    'Gracias. Su dirección de correo está confirmada, y le enviamos por correo lo que usted mandó.',
}
