// Schemas of open standards, where they are at hand: in BULLFIDDLE_SCHEMAS, or beside the checkout. A fresh clone has none, and tests that want them then count as skipped.
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';

const folder = process.env.BULLFIDDLE_SCHEMAS ?? resolve(import.meta.dirname, '../../../shared/schemas');
export const schemaFolder = existsSync(folder) ? folder : null;
