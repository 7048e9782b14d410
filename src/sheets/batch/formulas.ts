import { ABSURD_LUX } from '../../photometry/reading';
import {
  type BatchField,
  type BatchKey,
  type BatchReadings,
  countOf,
  fieldsOf,
  hasColour,
  isCentre,
  pointsOf,
  SAYS,
} from '../../procurement/batch/columns';
import { stemOf } from '../names/stem';
import { decidedBy } from '../phrases/decision';
import { overRangeCount } from '../phrases/overrange';

/** Cell of a column in the same row, or the cells from one column to another. */
export type RowAt = (first: string, last?: string) => string;

export const readingKey = (field: BatchField, point: number) => `${field}${point + 1}`;

type Judged = 'White' | 'Colour';

/** How many cells hold a reading of a lit field. */
const taken = (range: string) => `COUNTIF(${range},">0")`;

/** The first of some conditions that holds says its word. */
function chain(conditions: readonly (readonly [string, string])[], otherwise: string): string {
  return conditions.reduceRight((rest, [test, says]) => `IF(${test},"${says}",${rest})`, otherwise);
}

/** The plain formulas of a row, without "="; they say what `procurement/batch/row.ts` says. */
export class RowFormulas {
  private readonly fields: readonly BatchField[];
  private readonly primaries: readonly BatchField[];
  private readonly points: number;
  private readonly ambient: string;

  constructor(
    private readonly readings: BatchReadings,
    isAmbientByRow: boolean,
    private readonly at: RowAt,
  ) {
    this.fields = fieldsOf(readings);
    this.primaries = this.fields.slice(1);
    this.points = pointsOf(readings);
    this.ambient = isAmbientByRow ? at('ambientLux') : 'AmbientLux';
  }

  of(key: BatchKey): string {
    switch (key) {
      case 'state':
        return this.state();
      case 'white':
        return isCentre(this.readings)
          ? this.part(['white'], this.net(['white']), 'White')
          : this.output('white');
      case 'red':
      case 'green':
      case 'blue':
        return this.output(key);
      case 'colour':
        return isCentre(this.readings)
          ? this.part(this.primaries, this.net(this.primaries), 'Colour')
          : this.colour();
      case 'whiteU':
        return this.expanded('White');
      case 'colourU':
        return this.expanded('Colour');
      case 'ratio':
        return this.ratio();
      case 'uniformity':
        return this.uniformity();
      case 'whiteVerdict':
        return this.verdict('White');
      case 'colourVerdict':
        return this.verdict('Colour');
      case 'decision':
        return this.decision();
      case 'whiteEstimate':
        return this.estimate('White');
      case 'colourEstimate':
        return this.estimate('Colour');
    }
  }

  /** Ambient illuminance of the row's own reading. */
  ambientLux(): string {
    const reading = this.at('ambient');
    return `IF(COUNTIF(${reading},">=0")=0,"",${reading}*LuxPerUnit*CalibrationFactor)`;
  }

  private cells(fields: readonly BatchField[]): string {
    return this.at(readingKey(fields[0]!, 0), readingKey(fields.at(-1)!, this.points - 1));
  }

  /** Illuminance of a number on the display, ambient included. */
  private gross(value: string, field: BatchField): string {
    return `${value}*${this.at('range')}*${stemOf(field)}Factor`;
  }

  private extreme(which: 'MAX' | 'MIN', fields: readonly BatchField[]): string {
    const each = fields.map((field) =>
      this.gross(this.points === 1 ? this.cells([field]) : `${which}(${this.cells([field])})`, field),
    );
    return each.length === 1 ? each[0]! : `${which}(${each.join(',')})`;
  }

  /** Ambient light as it stands in the illuminances of fields: read without what corrects the projector's light. */
  private dark(...fields: readonly BatchField[]): string {
    const lights = fields.map((field) => `${stemOf(field)}Light`);
    return `${this.ambient}*${lights.length === 1 ? lights[0] : `(${lights.join('+')})`}`;
  }

  /** Whether a reading of these fields is below ambient light. */
  private isBelow(fields: readonly BatchField[]): string {
    const each = fields.map((field) => `${this.extreme('MIN', [field])}<${this.dark(field)}`);
    return each.length === 1 ? each[0]! : `OR(${each.join(',')})`;
  }

  /** Net illuminance at the centre, of one field or of several together. */
  private net(fields: readonly BatchField[]): string {
    const sum = fields.map((field) => this.gross(this.cells([field]), field)).join('+');
    return `(${sum}-${this.dark(...fields)})`;
  }

  private state(): string {
    const { at, readings } = this;
    const all = this.cells(this.fields);
    const over = overRangeCount(all);
    /** Below 0, or no number at all. */
    const odd = `COUNTIF(${all},"<0")+COUNTA(${all})-COUNT(${all})`;
    const references = hasColour(readings) ? 'WhiteReference,ColourReference' : 'WhiteReference';
    const complete = chain(
      [
        [`COUNTA(${at('serial')})=0`, SAYS.noSerial],
        [`ISERROR(${at('serial')})`, SAYS.badSerial],
        [`${taken(at('range'))}=0`, SAYS.noRange],
        [`COUNT(${this.ambient})=0`, SAYS.noAmbient],
        [`${this.ambient}<0`, SAYS.badAmbient],
        ...(isCentre(readings)
          ? [[`COUNT(${references})<${this.fields.length > 1 ? 2 : 1}`, SAYS.noReference] as const]
          : []),
        ['COUNT(SetupReady)=0', SAYS.seeSetup],
        [`${this.extreme('MAX', this.fields)}>${ABSURD_LUX}`, SAYS.tooBright],
        [this.isBelow(this.fields), SAYS.ambientExceeds],
      ],
      `"${SAYS.complete}"`,
    );
    const count = countOf(readings);
    const begun = `COUNTA(${at('serial')})+${taken(all)}+${odd}`;
    const wrong = `(${odd}-${over})`;
    const part = (n: string, says: string) => `IF(${n}>0,${n}&" ${says}; ","")`;
    return `IF(${taken(all)}=${count},${complete},IF(${begun}=0,"",${part(wrong, SAYS.notReading)}&${part(over, SAYS.over)}&${taken(all)}&" of ${count}"))`;
  }

  /** A value of some fields once they are complete and their readings can be used. */
  private once(fields: readonly BatchField[], value: string, reference = ''): string {
    const cells = this.cells(fields);
    const n = fields.length * this.points;
    const needed = [this.ambient, 'SetupReady', ...(reference ? [reference] : [])];
    const ready = `${taken(this.at('range'))}*(COUNT(${needed.join(',')})=${needed.length})`;
    const see = `"${SAYS.seeState}"`;
    const sound = `OR(${this.ambient}<0,${this.extreme('MAX', fields)}>${ABSURD_LUX},${this.isBelow(fields)})`;
    return `IF(${taken(cells)}<${n},IF(LEN(${this.at('state')})=0,"",${taken(cells)}&" of ${n}"),IF(${ready}=0,${see},IF(${sound},${see},${value})))`;
  }

  private output(field: BatchField): string {
    const mean = this.gross(`AVERAGE(${this.cells([field])})`, field);
    return this.once([field], `(${mean}-${this.dark(field)})*ImageArea`);
  }

  private part(fields: readonly BatchField[], net: string, id: Judged): string {
    return this.once(fields, `${net}/${id}Reference`, `${id}Reference`);
  }

  private colour(): string {
    const cells = this.cells(this.primaries);
    const outputs = this.at('red', 'blue');
    const missing = `IF(LEN(${this.at('state')})=0,"",${taken(cells)}&" of 27")`;
    return `IF(COUNT(${outputs})<3,IF(${taken(cells)}<27,${missing},"${SAYS.seeState}"),SUM(${outputs}))`;
  }

  private ratio(): string {
    const [white, colour] = [this.at('white'), this.at('colour')];
    const [below, above] = isCentre(this.readings)
      ? [this.net(['white']), this.net(this.primaries)]
      : [white, colour];
    return `IF(COUNT(${white},${colour})<2,"",IF(${below}>0,${above}/${below},""))`;
  }

  private uniformity(): string {
    const white = this.at('white');
    const net = (which: 'MIN' | 'MAX') => `(${this.extreme(which, ['white'])}-${this.dark('white')})`;
    return `IF(COUNT(${white})=0,"",IF(${white}>0,${net('MIN')}/${net('MAX')},""))`;
  }

  /** U = k·u; digits and ambient light bear on the illuminance, the rest on the result. */
  private expanded(id: Judged): string {
    const value = this.figure(id);
    const perLux = isCentre(this.readings) ? `/${id}Reference^2` : '*ImageArea^2';
    const own =
      id === 'White' || isCentre(this.readings)
        ? ''
        : this.primaries.map((field) => `+(${stemOf(field)}Own*${this.at(field)})^2`).join('');
    const lux = `((${id}Digits*${this.at('range')})^2+(${id}Ambient+${id}AmbientPart*${this.ambient})^2)`;
    const root = `SQRT((${id}Shared*${value})^2+${lux}${perLux}${own})`;
    return `IF(COUNT(${value})=0,"",IF(COUNT(${id}Stated)=1,${id}Stated*${value},${id}Cover*${root}))`;
  }

  private verdict(id: Judged): string {
    const y = this.figure(id);
    const U = this.at(id === 'White' ? 'whiteU' : 'colourU');
    const T = `${id}Limit`;
    return `IF(COUNT(${y},${U},${T})<3,"",${decidedBy('DecisionRule', y, T, U)})`;
  }

  /** The worse of what is judged; a unit that fails in one figure fails, whatever is still to be measured. */
  private decision(): string {
    const open = (limits: string, judged: string) =>
      `IF(LEN(${this.at('state')})=0,"",IF(COUNT(${limits})=0,"${SAYS.noLimit}",${judged}))`;
    if (!hasColour(this.readings)) {
      const only = `IF(COUNT(${this.at('white')})=0,"${SAYS.toMeasure}",${this.verdict('White')})`;
      return open('WhiteLimit', only);
    }
    const cells = [
      ['White', this.at('whiteVerdict')],
      ['Colour', this.at('colourVerdict')],
    ] as const;
    const any = (word: string) => `OR(${cells.map(([, cell]) => `${cell}="${word}"`).join(',')})`;
    const waiting = cells.map(([id, cell]) => `AND(COUNT(${id}Limit)=1,LEN(${cell})=0)`).join(',');
    const worst = `IF(${any('conditional fail')},"conditional fail",IF(${any('conditional pass')},"conditional pass","pass"))`;
    return open(
      'WhiteLimit,ColourLimit',
      `IF(${any('fail')},"fail",IF(OR(${waiting}),"${SAYS.toMeasure}",${worst}))`,
    );
  }

  private estimate(id: Judged): string {
    const value = this.figure(id);
    return `IF(COUNT(${value},${id}ReferenceOutput)<2,"",${value}*${id}ReferenceOutput)`;
  }

  private figure(id: Judged): string {
    return this.at(id === 'White' ? 'white' : 'colour');
  }
}
