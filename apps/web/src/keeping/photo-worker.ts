import { expose } from 'comlink';
import { scalePhoto } from './scale-photo.ts';

const photographer = { scalePhoto };

export type Photographer = typeof photographer;

expose(photographer);
