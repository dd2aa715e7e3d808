import type { ConsentKind, ConsentSource } from '../../core/consent.ts'

/** The English of consents: what is agreed to, word by word, and how it is shown. */
export const CONSENT_EN = {
  /** A yes is kept with these very words. {shop} is the shop's name. */
  wording: {
    offers:
      '{shop} may write to me by mail about upgrades for my machine when a part comes up that fits it and is worth its price. I can take this back at any time, on my page or with the link in every such mail.',
  } satisfies Record<ConsentKind, string>,
  /** What is kept as the words of a no. */
  withdrawal: 'No more offers, please.',
  sources: {
    'owner page': 'on the owner’s page',
    'in person': 'told in person',
    mail: 'told by mail or chat',
    unsubscribe: 'with the link in a mail',
    import: 'from a table',
    erase: 'asked to be erased',
  } satisfies Record<ConsentSource, string>,
}
