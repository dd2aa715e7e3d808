import type { Forms } from '../say.ts'

/** The English around any form: what is wrong with it, and what stands beside its fields. */
export const FORM_EN = {
  wrong: { one: 'One thing to put right', other: '{count} things to put right' } satisfies Forms,
  kept: 'Nothing was saved yet. What you typed is still here.',
  needed: '(needed)',
  photo: 'Photo',
  photoHint: 'JPEG, PNG or WebP, at most 5 MB.',
  sendPhoto: 'Send the photo',
  copy: {
    button: 'Copy the text',
    done: 'Copied.',
    refused: 'This browser does not let a page copy. Select the text and copy it.',
  },
  skip: 'Skip to the page',
  demo: { head: 'Demo shop:', says: 'invented people, parts and prices. Nothing here is sent.' },
} as const
