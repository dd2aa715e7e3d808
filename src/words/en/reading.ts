import type { MessageWords } from '../../core/reading/message.ts'

/** How people write to a shop in English. Patterns of regular expressions; another language is another table. */
export const MESSAGE_EN: MessageWords = {
  currencies: {
    USD: ['dollars?', 'bucks', 'usd'],
    EUR: ['euros?', 'eur'],
    GBP: ['pounds?', 'quid', 'gbp'],
    CAD: ['dollars?', 'cad'],
    AUD: ['dollars?', 'aud'],
  },
  partPriceBefore: [
    '(?:can |could )?(?:get|buy|have) (?:it|one|this|this one|that|that one)(?: used| new)? for',
    '(?:it|one) (?:is|costs|goes for|would be)',
    'offered (?:it )?(?:to me )?for',
    '(?:sells|selling|would sell|can sell|lets me have|offers|offered) (?:it|one|this one|that one|(?:me|us)(?: (?:it|one|his|hers|theirs|this one|that one))?) for',
  ],
  complaints: {
    slow: [
      '(?:got|is|gets|became|getting|so|too|very|runs?|running) (?:so |very |really |too )?slow(?:er)?',
      'stutters?',
      'stuttering',
      'lags?',
      'lagging',
    ],
    hot: [
      '(?:got|is|gets|became|getting|so|too|very|runs?|running) (?:so |very |really |too )?hot(?:ter)?',
      '(?:slow(?:er)?|loud(?:er)?|noisy) and (?:so |very |really |too )?hot(?:ter)?',
      'overheats?',
      'overheating',
    ],
    loud: [
      '(?:got|is|gets|became|getting|so|too|very) (?:so |very |really |too )?(?:loud|noisy)(?:er)?',
      'louder',
      'rattles?',
      'rattling',
    ],
  },
  asks: {
    'can I put this in': [
      '(?:can|could) (?:i|you|we) (?:also )?(?:put|fit|install)',
      '(?:will|would|does) (?:it|this|that|this one) (?:fit|go in)',
    ],
    'will it run this': [
      '(?:will|would|can|could|does) (?:it|my pc|my machine|my computer) (?:run|handle|play)',
    ],
    'next system version': [
      '(?:next|new|newer) (?:version of (?:the |my )?)?(?:operating )?system(?: version)?',
    ],
    'what can I do': ['what can (?:i|you|we) do', 'what (?:do|would) you (?:suggest|recommend)'],
  },
  kinds: {
    processor: ['processor', 'cpu'],
    board: ['board', 'motherboard', 'mainboard'],
    memory: ['memory', 'ram', 'memory kit'],
    card: ['card', 'graphics card', 'gpu', 'graphics'],
    supply: ['supply', 'power supply', 'psu'],
    case: ['case', 'tower'],
    cooler: ['cooler'],
    drive: ['drive', 'ssd', 'hard disk', 'disk', 'nvme'],
    fan: ['fan', 'fans'],
  },
  putIn: {
    before: ['(?:put|fit|install|use|add)(?: (?:a|an|the|this|that|my|one of these|these))?'],
    behind: ['in', 'into', 'in it', 'inside'],
  },
  putInBefore: ['(?:put|fit|install) in(?: (?:a|an|the|this|that|my|one of these|these))?'],
  fps: ['fps', 'frames(?: (?:a|per) second)?'],
}
