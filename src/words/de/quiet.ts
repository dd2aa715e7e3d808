import type { QUIET_EN } from '../en/quiet.ts'
import type { Translated } from '../translated.ts'

export const QUIET_DE: Translated<typeof QUIET_EN> = {
  head: 'Wie laut',
  level: '{dba} dB(A)',
  range: '{low} bis {high} dB(A)',
  measured: {
    one: 'Lautstärke: Der Rechner, den wir mit diesem Teil ({part}) gemessen haben, hatte in einem Meter Abstand {range}, alles zusammen. In Ihrem Gehäuse kann es mehr oder weniger sein.',
    other:
      'Lautstärke: In {count} unserer Messungen hatten Rechner mit diesem Teil ({part}) in einem Meter Abstand {range}, alles zusammen. In Ihrem Gehäuse kann es mehr oder weniger sein.',
  },
  quiet: 'Bis {quiet} nennen wir leise.',
  notQuiet: 'Das ist lauter als die {quiet}, die wir leise nennen.',
  someLoud: 'Manche waren lauter als die {quiet}, die wir leise nennen; für Ihren können wir es nicht sagen.',
  louderThanYours: 'Das ist lauter als das, was Sie haben: Ihren haben wir mit {own} gemessen.',
  notLouderThanYours: 'Das ist nicht lauter als das, was Sie haben: Ihren haben wir mit {own} gemessen.',
  yours: 'Ihren haben wir mit {own} gemessen.',
  yoursUnknown: 'Wie laut Ihrer ist, haben wir nie gemessen.',
  untold: 'Wie laut Ihr Rechner damit ist ({parts}), können wir nicht sagen: Wir haben es nicht gemessen.',
  above: 'Wie laut Rechner mit diesem Teil ({part}) waren, steht oben.',
  leftOut: 'Auch der leiseste Rechner mit diesem Teil ({part}) hatte in einem Meter Abstand {low}.',
  limit: 'Bis {quiet} nennen wir leise.',
  limitOwn:
    'Das ist lauter als das, was Sie haben: Ihren haben wir mit {own} gemessen, in einem Meter Abstand.',
}
