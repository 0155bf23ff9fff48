/** What answers to a GET and is no page, or one that only a post can show. */
export const NO_PAGES = [
  ...[
    '/livez',
    '/readyz',
    '/healthz',
    '/assets/:file',
    '/finishes',
    '/finishes/photos/:name',
    '/request/photos/:token',
    ...['', '/small'].flatMap(size => [
      `/r/:token/photos/:photo${size}`,
      `/queue/:number/photos/:photo${size}`,
      `/days/jobs/:number/photos/:photo${size}`,
    ]),
    '/rates/csv/rates.zip',
    '/customers/:id/firm/certificate',
    '/queue/:number/certificate/file',
    '/loads/:day/got/:got/ticket',
    '/settings/papers/:id',
    '/settings/letterhead/logo',
    ...['/b/:token', '/p/:token', '/queue/:number'].map(price => `${price}/price.pdf`),
    ...['/bills/:bill', '/r/:token/bills/:bill'].map(bill => `${bill}/bill.pdf`),
    '/b/:token/papers/:paper',
    '/calendar/:token',
    '/r/:token/calendar.ics',
    '/settings/qr-code.svg',
    '/settings/qr-code.png',
  ],
  ...['/ballpark', '/requests', '/b/:token/day', '/b/:token/check', '/b/:token/question'],
  ...['/settings/days/holidays', '/settings/days/off', '/settings/days/crew/off'],
]

/** What programs and scripts post to, without a form; and the form that only a right password shows to somebody with codes. */
export const NO_FORMS = [
  'POST /b/:token/seen',
  'POST /texts/replies',
  'POST /request/photos',
  'POST /r/:token/photos/held',
  'POST /sign-in/code',
  'POST /settings/staff/:id/codes-off',
]
