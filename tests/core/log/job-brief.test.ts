import { describe, expect, it } from 'vitest';
import { sayLimit } from '#core/log/job-brief.ts';

describe('the limit of a job in hours', () => {
  it('is silent where there is none, and where what is planned fits', () => {
    expect(sayLimit({ limitHours: undefined, benchHours: 40 }, 500)).toBeUndefined();
    expect(sayLimit({ limitHours: 3, benchHours: 1 }, 120)).toBeUndefined();
  });

  it('says how many minutes are left where what is planned takes longer', () => {
    expect(sayLimit({ limitHours: 3, benchHours: 1.5 }, 91)).toMatch(/limit of 3 h, 90 minutes are left/u);
  });

  it('says that it is reached, whatever is planned', () => {
    expect(sayLimit({ limitHours: 2, benchHours: 2 })).toMatch(/limit of 2 h is reached/u);
    expect(sayLimit({ limitHours: 2, benchHours: 5 }, 1)).toMatch(/reached/u);
  });
});
