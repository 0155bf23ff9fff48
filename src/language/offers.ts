/** What sells, and what of it homeowners agree to. The words of a box are kept with the consent, as they stood there. */
export const en = {
  'offers.legend': 'Offers',
  'offers.mail': '{business} may email me offers, such as next spring’s price. I can stop them any time.',
  'offers.text':
    '{business} may text me offers, such as next spring’s price. I don’t have to agree to get a price. I can stop them any time by texting STOP.',
  'offers.heading': 'What we send you',
  'offers.quiet': 'Only messages about my visit and my booked work',
  'offers.save': 'Save',
  'offers.saved': 'Saved. We’ll keep to that.',
  'offers.subject': 'Ready for spring? Request {number}',
  'offers.hello-again': 'Thank you for having us do your beds. Spring is a good time for fresh mulch.',
  'offers.page': 'See what we did last time',
  'offers.brief': 'Ready for spring? Text STOP to end offers. {number}:',
  'offers.why': 'This is an advertisement. You get it because you agreed to offers by email.',
  'offers.stop': 'Stop these emails',
  'offers.stop-heading': 'Stop offers by email?',
  'offers.stop-lead': 'You’ll still get messages about work that you booked.',
  'offers.stop-button': 'Stop offers',
  'offers.stopped': 'You won’t get offers by email from now on.',
}

export const es: Record<keyof typeof en, string> = {
  'offers.legend': 'Ofertas',
  'offers.mail':
    '{business} puede enviarme ofertas por correo, como el precio de la próxima primavera. Puedo cancelarlas cuando quiera.',
  'offers.text':
    '{business} puede enviarme ofertas por mensaje de texto, como el precio de la próxima primavera. No tengo que aceptar para recibir un precio. Puedo cancelarlas cuando quiera con la palabra ALTO.',
  'offers.heading': 'Lo que le enviamos',
  'offers.quiet': 'Solo mensajes sobre mi visita y mi trabajo reservado',
  'offers.save': 'Guardar',
  'offers.saved': 'Guardado. Así lo haremos.',
  'offers.subject': '¿Listo para la primavera? Solicitud {number}',
  'offers.hello-again':
    'Gracias por confiarnos sus jardineras. La primavera es un buen momento para renovar el mantillo.',
  'offers.page': 'Vea lo que hicimos la última vez',
  'offers.brief': '¿Listo para la primavera? Responda ALTO para no recibir ofertas. {number}:',
  'offers.why': 'Esto es publicidad. La recibe porque aceptó recibir ofertas por correo.',
  'offers.stop': 'No recibir más estos correos',
  'offers.stop-heading': '¿No recibir más ofertas por correo?',
  'offers.stop-lead': 'Seguirá recibiendo mensajes sobre el trabajo que reservó.',
  'offers.stop-button': 'No recibir más ofertas',
  'offers.stopped': 'Ya no recibirá ofertas por correo.',
}
