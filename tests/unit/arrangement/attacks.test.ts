// How fast the plucking hand lets a part go: arithmetic on attacks, slurred notes left out.
import { describe, expect, it } from 'vitest';
import { planned, tune } from './support.ts';

const header = 'M:2/2 ; L:1/8 ; Q:1/2=120 ; K:D clef=bass';

const planOf = (fields: string, body: string) => planned(tune(fields, body)).fingered[0]!.plan;

describe('the plucking hand in the top tempo', () => {
  it('lets running eighths go at seven a second in comfort: half note 105 of 120', () => {
    // Eight attacks a second at half note 120; comfortable are seven (setting), 120 * 7/8 = 105. Arithmetic of scenario 7.
    const plan = planOf(header, 'D,E,F,G, A,B,CD|DCB,A, G,F,E,D,|');
    expect(plan.topTempo).toMatchObject({ beat: '1/2', comfortable: 105 });
  });

  it('ends at ten attacks a second: half note 150', () => {
    expect(planOf(header, 'D,D,D,D, D,D,D,D,|D,D,D,D, D,D,D,D,|').topTempo.limit).toBe(150);
  });

  it('counts no pluck for a hammered note', () => {
    const slurred = planOf(header, '(D,E,)F,G, A,B,(CD)|(DC)B,A, G,F,(E,D,)|');
    expect(slurred.topTempo.comfortable).toBeGreaterThan(105);
  });
});
