import { drillPart } from './parts.ts';

drillPart(0);
