/**
 * Who may use a route. A program's key opens a route only where the row names a scope.
 *
 * - public: anybody
 * - owner link: whoever has the link; the route looks whether it holds, and shows nothing else
 * - staff: everybody with an account, and the demo
 * - owner: the owner's account, and the demo
 * - own account: everybody with an account, about that account; not in the demo
 * - accounts: the owner's account, and for changes the password typed lately (proof.tsx); not in the demo
 * - token: only programs with a key of that scope, and the demo
 */
export type Right = 'public' | 'owner link' | 'staff' | 'owner' | 'own account' | 'accounts' | 'token'

/**
 * What a program's key is good for; a key that may write may read too. Who owns a machine, and how they are reached, is
 * told to keys with `people` alone (api/withoutPeople.ts).
 */
export type Scope = 'read' | 'write' | 'people'

export type Row = {
  readonly method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE'
  /** The pattern exactly as the route is registered with. */
  readonly path: string
  readonly may: Right
  readonly scope?: Scope
}

const get = (path: string, may: Right, scope?: Scope): Row => row('GET', path, may, scope)
const post = (path: string, may: Right, scope?: Scope): Row => row('POST', path, may, scope)
const row = (method: Row['method'], path: string, may: Right, scope?: Scope): Row => ({
  ...{ method, path, may },
  ...(scope !== undefined && { scope }),
})

/** A page with a form on it: looking and sending take the same right. */
const form = (path: string, may: Right): readonly Row[] => [get(path, may), post(path, may)]

/** Every route there is. A route that is not here is refused to everybody, and a test names it. */
export const RIGHTS: readonly Row[] = [
  get('/assets/app.css', 'public'),
  get('/assets/app.js', 'public'),
  get('/assets/icon.svg', 'public'),
  get('/favicon.ico', 'public'),
  ...form('/sign-in', 'public'),
  ...form('/welcome', 'public'),

  get('/o/:token', 'owner link'),
  get('/o/:token/sheet', 'owner link'),
  get('/o/:token/sheet.pdf', 'owner link'),
  get('/o/:token/sheets/:job', 'owner link'),
  post('/o/:token/limits', 'owner link'),
  post('/o/:token/photos', 'owner link'),
  post('/o/:token/questions', 'owner link'),
  post('/o/:token/fps', 'owner link'),
  ...form('/o/:token/reading', 'owner link'),
  post('/o/:token/reading/send', 'owner link'),
  post('/o/:token/language', 'owner link'),
  post('/o/:token/consent', 'owner link'),
  ...form('/o/:token/sold', 'owner link'),
  post('/o/:token/sold/back', 'owner link'),
  ...form('/o/:token/erase', 'owner link'),
  post('/o/:token/erase/back', 'owner link'),
  get('/o/:token/mine', 'owner link'),
  get('/o/:token/mine.json', 'owner link'),
  get('/o/*', 'owner link'),

  // The way out of offers (RFC 8058): whoever has the mail.
  ...form('/u/:token', 'public'),

  get('/l/:code', 'public'),
  get('/l/:code/sheet.pdf', 'public'),

  get('/', 'staff'),
  ...form('/questions/new', 'staff'),
  get('/questions/:id', 'staff'),
  get('/questions/:id/why', 'staff'),
  get('/questions/:id/why-not', 'staff'),
  post('/questions/:id/message', 'staff'),
  ...form('/questions/:id/yes', 'staff'),
  ...form('/questions/:id/change', 'staff'),
  ...form('/questions/:id/part', 'staff'),
  post('/questions/:id/remind', 'staff'),
  post('/questions/:id/call-off', 'staff'),
  post('/questions/:id/take-up', 'staff'),
  post('/questions/:id/mails/received', 'staff'),
  post('/questions/:id/mails/gone', 'staff'),
  ...form('/ask', 'staff'),
  post('/requests/:id/withdraw', 'staff'),
  get('/answers/:id', 'staff'),
  get('/answers/:id/why', 'staff'),
  ...form('/messages/:id', 'staff'),
  get('/messages/:id/preview', 'staff'),
  get('/messages/:id/mail.eml', 'staff'),
  post('/messages/:id/told', 'staff'),
  post('/messages/:id/link', 'staff'),
  post('/messages/:id/outbox', 'staff'),
  get('/outbox', 'staff'),
  ...form('/outbox/bounce', 'staff'),
  // How often, and when, strangers to the shop's ways are written to.
  ...form('/outbox/rules', 'owner'),
  ...form('/outbox/many', 'staff'),
  get('/outbox/:id', 'staff'),
  get('/outbox/:id/preview', 'staff'),
  get('/outbox/:id/mail.eml', 'staff'),
  post('/outbox/:id/words', 'staff'),
  post('/outbox/:id/approve', 'staff'),
  post('/outbox/:id/take-back', 'staff'),
  post('/outbox/:id/stop', 'staff'),
  post('/outbox/:id/take-up', 'staff'),
  post('/outbox/:id/again', 'staff'),
  post('/outbox/:id/settle', 'staff'),
  post('/outbox/:id/came-back', 'staff'),
  post('/outbox/:id/test', 'staff'),
  get('/jobs', 'staff'),
  get('/jobs/:id', 'staff'),
  get('/jobs/:id/sheet', 'staff'),
  post('/jobs/:id/book', 'staff'),
  post('/jobs/:id/missed', 'staff'),
  post('/jobs/:id/start', 'staff'),
  post('/jobs/:id/put-off', 'staff'),
  post('/jobs/:id/call-off', 'staff'),
  post('/jobs/:id/remind', 'staff'),
  post('/jobs/:id/outbox', 'staff'),
  post('/jobs/:id/miss', 'staff'),
  post('/jobs/:id/steps/:n', 'staff'),
  post('/jobs/:id/fitted', 'staff'),
  post('/jobs/:id/run', 'staff'),
  post('/jobs/:id/report', 'staff'),
  post('/jobs/:id/out/:n', 'staff'),
  post('/jobs/:id/settle', 'staff'),
  post('/jobs/:id/told', 'staff'),
  post('/jobs/:id/finish', 'staff'),
  get('/customers', 'staff'),
  post('/customers/keep', 'owner'),
  get('/customers/:id', 'staff'),
  post('/customers/:id/consent', 'staff'),
  post('/customers/:id/language', 'staff'),
  get('/customers/:id/all.json', 'owner'),
  ...form('/customers/:id/erase', 'owner'),
  get('/machines', 'staff'),
  ...form('/machines/new', 'staff'),
  get('/machines/:tag', 'staff'),
  get('/machines/:tag/sheet', 'staff'),
  get('/machines/:tag/sheet/handed/:id', 'staff'),
  get('/machines/:tag/sheet.pdf', 'staff'),
  get('/machines/:tag/sheet.json', 'staff'),
  ...form('/machines/:tag/label', 'staff'),
  get('/machines/:tag/label.svg', 'staff'),
  get('/machines/:tag/label.pdf', 'staff'),
  ...form('/machines/:tag/correct', 'staff'),
  get('/machines/:tag/on', 'staff'),
  ...form('/machines/:tag/measure', 'staff'),
  post('/machines/:tag/limits', 'staff'),
  ...form('/machines/:tag/owner', 'staff'),
  post('/machines/:tag/parting/back', 'staff'),
  ...form('/machines/:tag/reading', 'staff'),
  post('/machines/:tag/reading/accept', 'staff'),
  get('/machines/:tag/reading/:id', 'staff'),
  post('/machines/:tag/reading/:id/aside', 'staff'),
  ...form('/reading', 'staff'),
  post('/machines/:tag/owner-link', 'staff'),
  post('/machines/:tag/owner-link/revoke', 'staff'),
  post('/machines/:tag/photos', 'staff'),
  get('/photos/:id', 'staff'),
  ...form('/sell', 'staff'),
  get('/sell/:tag', 'staff'),
  post('/sell/:tag/start', 'staff'),
  ...form('/sell/:tag/parts', 'staff'),
  post('/sell/:tag/parts/:part/back', 'staff'),
  post('/sell/:tag/steps', 'staff'),
  post('/sell/:tag/sheet', 'staff'),
  post('/sell/:tag/money', 'staff'),
  ...form('/sell/:tag/message', 'staff'),
  post('/sell/:tag/message/link', 'staff'),
  post('/sell/:tag/message/outbox', 'staff'),
  get('/sell/:tag/message/preview', 'staff'),
  ...form('/sell/:tag/message/mail.eml', 'staff'),
  post('/sell/:tag/hand-over', 'staff'),
  post('/sell/:tag/not-handed-over', 'staff'),
  post('/sell/:tag/take-back', 'staff'),
  ...form('/parts/:id', 'staff'),
  get('/shelf', 'staff'),
  get('/shelf/:item', 'staff'),
  get('/findable', 'staff'),
  ...form('/findable/new', 'staff'),
  ...form('/findable/:id', 'staff'),
  post('/findable/:id/remove', 'staff'),
  post('/findable/:id/bring-back', 'staff'),
  get('/hunt', 'staff'),
  ...form('/offers', 'staff'),
  ...form('/offers/price', 'staff'),
  get('/offers/price/:id', 'staff'),
  post('/offers/price/:id/call-off', 'staff'),
  post('/offers/price/:id/forget', 'staff'),
  get('/offers/:id', 'staff'),
  post('/offers/:id/call-off', 'staff'),
  post('/offers/:id/forget', 'staff'),
  ...form('/platforms', 'staff'),
  get('/platforms/:id', 'staff'),
  post('/platforms/:id/call-off', 'staff'),
  post('/platforms/:id/forget', 'staff'),
  get('/runs', 'staff'),
  ...form('/runs/log', 'staff'),
  get('/runs/log/:ids', 'staff'),
  ...form('/runs/log/:ids/save', 'staff'),
  get('/runs/log/:ids/original', 'staff'),
  post('/runs/log/:ids/forget', 'staff'),
  ...form('/runs/new', 'staff'),
  get('/runs/:id', 'staff'),
  ...form('/runs/:id/correct', 'staff'),
  post('/runs/:id/take-out', 'staff'),
  post('/runs/:id/so', 'staff'),
  post('/runs/:id/ask-again', 'staff'),
  post('/runs/:id/bring-back', 'staff'),
  get('/titles', 'staff'),
  ...form('/titles/new', 'staff'),
  ...form('/titles/settings/new', 'staff'),
  ...form('/titles/:id', 'staff'),
  get('/rules', 'staff'),
  get('/promises', 'staff'),
  // It sets how wide every promise to come is.
  post('/promises/width', 'owner'),
  post('/promises/width/back', 'owner'),
  get('/model', 'staff'),

  ...form('/import', 'owner'),
  ...form('/settings', 'owner'),

  get('/account', 'own account'),
  post('/account/password', 'own account'),
  post('/sign-out', 'own account'),
  post('/sign-out-everywhere', 'own account'),
  ...form('/settings/accounts', 'accounts'),
  post('/settings/accounts/:id/code', 'accounts'),
  post('/settings/accounts/:id/disable', 'accounts'),
  post('/settings/accounts/:id/enable', 'accounts'),
  post('/settings/accounts/:id/sign-out', 'accounts'),
  ...form('/settings/tokens', 'accounts'),
  get('/settings/access', 'accounts'),
  post('/settings/tokens/:id/revoke', 'accounts'),

  get('/api', 'staff'),
  get('/api/v1/openapi.json', 'public'),
  get('/api/v1/machines', 'staff', 'read'),
  post('/api/v1/machines', 'staff', 'write'),
  get('/api/v1/machines/:tag', 'staff', 'read'),
  post('/api/v1/machines/:tag/limits', 'staff', 'write'),
  get('/api/v1/parts', 'staff', 'read'),
  get('/api/v1/parts/:id', 'staff', 'read'),
  row('PUT', '/api/v1/parts/:id', 'staff', 'write'),
  get('/api/v1/shelf', 'staff', 'read'),
  get('/api/v1/findable', 'staff', 'read'),
  get('/api/v1/runs', 'staff', 'read'),
  get('/api/v1/runs/odd', 'staff', 'read'),
  get('/api/v1/titles', 'staff', 'read'),
  get('/api/v1/settings', 'staff', 'read'),
  get('/api/v1/shop', 'staff', 'read'),
  get('/api/v1/questions', 'staff', 'read'),
  post('/api/v1/questions', 'staff', 'write'),
  get('/api/v1/questions/:id', 'staff', 'read'),
  row('PUT', '/api/v1/questions/:id', 'staff', 'write'),
  get('/api/v1/questions/:id/answer', 'staff', 'read'),
  get('/api/v1/questions/:id/ranking', 'staff', 'read'),
  get('/api/v1/questions/:id/why-not', 'staff', 'read'),
  get('/api/v1/jobs', 'staff', 'read'),
  get('/api/v1/jobs/:id', 'staff', 'read'),
  post('/api/v1/jobs/:id/runs', 'staff', 'write'),
  get('/api/v1/sales', 'staff', 'read'),
  // Judges what is sent along, and keeps nothing.
  post('/api/v1/fit', 'staff', 'read'),
  get('/api/v1/rules', 'staff', 'read'),

  // People's names and addresses together are the owner's to take away.
  get('/export/customers.csv', 'owner', 'people'),
  get('/export/consents.csv', 'owner', 'people'),
  get('/export/handed_sheets.csv', 'owner', 'people'),
  // What machines cost is for the shop's own eyes: no key opens it.
  get('/export/sales.csv', 'staff'),
  get('/export/:file', 'staff', 'read'),
]

const rows = new Map(RIGHTS.map((r) => [`${r.method} ${r.path}`, r]))

/** The row of a registered route; undefined where there is none. */
export const rowOf = (method: string, path: string): Row | undefined => rows.get(`${method} ${path}`)
