import { z } from 'zod';
import { howKnownWords } from '../typed.ts';
import {
  count,
  faceField,
  flag,
  id,
  nameFrom,
  pointField,
  quantity,
  reference,
  sizeField,
  text,
} from './fields.ts';

export const aboutSchema = z.strictObject({
  address: text('Street address.').optional(),
  client: text('For whom.').optional(),
  preparedBy: text('Who surveyed or designed.').optional(),
  company: text('Firm.').optional(),
  date: text('Day of the survey, as 2025-06-30.').optional(),
  notes: text('Anything worth keeping.').optional(),
});

export const siteSchema = z.strictObject({
  station: nameFrom(
    'stations',
    'Weather station from the climate table; it supplies what is not typed here.',
  ).optional(),
  place: text('Name of the place.').optional(),
  latitude: quantity('angle', 'Degrees north.', { least: '-90°', most: '90°' }).optional(),
  elevation: quantity('length', 'Height above the sea.', { least: '-1500 ft', most: '16000 ft' }).optional(),
  heatingDesign: quantity('temperature', 'Outdoor dry bulb for heating.', {
    least: '-80 °F',
    most: '80 °F',
  }).optional(),
  heatingPercentile: text('Which percentile it is, as "99 %".').optional(),
  coolingDesign: quantity('temperature', 'Outdoor dry bulb for cooling.', {
    least: '50 °F',
    most: '130 °F',
  }).optional(),
  coolingWetBulb: quantity('temperature', 'Wet bulb that goes with it.', {
    least: '30 °F',
    most: '95 °F',
  }).optional(),
  coolingPercentile: text('Which percentile it is, as "1 %".').optional(),
  dailyRange: quantity('temperatureDifference', 'Daily range of the hottest month.', {
    least: '0 °F',
    most: '50 °F',
  }).optional(),
  groundHeating: quantity('temperature', 'Ground beside the house on the heating design day.', {
    least: '-30 °F',
    most: '90 °F',
  }).optional(),
  groundCooling: quantity('temperature', 'Ground beside the house on the cooling design day.', {
    least: '-30 °F',
    most: '100 °F',
  }).optional(),
  source: text('Where typed design temperatures come from.').optional(),
});

export const indoorSchema = z.strictObject({
  heating: quantity('temperature', 'Thermostat in winter.', { least: '40 °F', most: '90 °F' }).optional(),
  cooling: quantity('temperature', 'Thermostat in summer.', { least: '60 °F', most: '95 °F' }).optional(),
  heatingHumidity: quantity('ratio', 'Relative humidity in winter.', {
    least: '0 %',
    most: '100 %',
  }).optional(),
  coolingHumidity: quantity('ratio', 'Relative humidity in summer.', {
    least: '0 %',
    most: '100 %',
  }).optional(),
});

/** Drawn there; without one the drawing finds a place. Nothing is computed from it. */
export const spotField = pointField('Where on the plan it is drawn.').optional();

const tightnessWords = ['tight', 'good', 'average', 'leaky', 'very leaky'] as const;

export const houseSchema = z.strictObject({
  floorArea: quantity('area', 'Conditioned floor area; the sum of the rooms when absent.', {
    least: '50 ft²',
    most: '100000 ft²',
  }).optional(),
  bedrooms: count('Number of bedrooms.', 0, 30).optional(),
  storeys: count('Storeys above grade.', 1, 6).optional(),
  ceilingHeight: quantity('length', 'Usual height of the rooms.', {
    least: '5 ft',
    most: '30 ft',
  }).optional(),
  height: quantity('length', 'Height of the conditioned volume.', {
    least: '5 ft',
    most: '100 ft',
  }).optional(),
  leakage50: quantity('airflow', 'Blower-door flow at 50 Pa.', {
    least: '1 cfm',
    most: '50000 cfm',
  }).optional(),
  airChanges50: quantity('airChange', 'Air changes at 50 Pa, instead of the flow.', {
    least: '0.05 per hour',
    most: '80 per hour',
  }).optional(),
  tightness: z.enum(tightnessWords).describe('Tightness in a word, when nothing was measured.').optional(),
  leakageExponent: quantity('number', 'Exponent of the envelope leakage.', {
    least: '0.5',
    most: '1',
  }).optional(),
  flueArea: quantity('opening', 'Area of open flues.', { least: '0 in²', most: '500 in²' }).optional(),
  combustionInside: flag('A burner that takes its air from the house.').optional(),
  yearBuilt: count('Year built.', 1600, 2100).optional(),
});

const surfaceKinds = [
  'wall',
  'ceiling',
  'roof',
  'floor',
  'door',
  'window',
  'skylight',
  'slab',
  'below-grade wall',
  'below-grade floor',
  'partition',
] as const;

export const surfaceSchema = z.strictObject({
  id: id('Name within its room or zone.'),
  name: text('As the report should call it.').optional(),
  kind: z.enum(surfaceKinds),
  beyond: reference('What is on the other side: outdoors, ground, a room or a zone.').optional(),
  area: quantity('area', 'Area; of a wall the gross area, its windows and doors are taken out.', {
    least: '0.1 ft²',
    most: '20000 ft²',
  }).optional(),
  size: sizeField('Width x height, instead of the area.').optional(),
  count: count('How many of the same.', 1, 100).optional(),
  in: reference('Wall of the same room that a window or door sits in.').optional(),
  spot: spotField,
  assembly: nameFrom('assemblies', 'Name from the table of assemblies; gives U and solar gain.').optional(),
  u: quantity('transmittance', 'U of the whole assembly with films.', {
    least: 'U-0.005',
    most: 'U-3',
  }).optional(),
  facing: quantity('angle', 'Direction it faces.', { least: '0°', most: '360°' }).optional(),
  absorptance: quantity('ratio', 'Share of the sun that its outside absorbs.', {
    least: '0 %',
    most: '100 %',
  }).optional(),
  shaded: flag('Always in the shade.').optional(),
  solarHeatGain: quantity('ratio', 'Solar heat gain coefficient of a window.', {
    least: '0 %',
    most: '95 %',
  }).optional(),
  interiorShade: quantity('ratio', 'Share of the sun that drapes or blinds let through.', {
    least: '0 %',
    most: '100 %',
  }).optional(),
  insectScreen: flag('Full insect screen outside.').optional(),
  overhangDepth: quantity('length', 'Depth of the overhang.', { least: '0 ft', most: '60 ft' }).optional(),
  overhangAbove: quantity('length', 'Overhang above the head of the window.', {
    least: '0 ft',
    most: '30 ft',
  }).optional(),
  edge: quantity('length', 'Exposed edge of a slab.', { least: '0 ft', most: '1000 ft' }).optional(),
  edgeLoss: quantity('edgeLoss', 'Heat loss per length of slab edge.', {
    least: '0.05 W/(m·K)',
    most: '6 W/(m·K)',
  }).optional(),
  cover: quantity('resistance', 'Resistance of the carpet or floor on a slab.', {
    least: 'R-0',
    most: 'R-20',
  }).optional(),
});

const roomUses = ['living', 'kitchen', 'bedroom', 'bath', 'hall', 'laundry', 'closet', 'other'] as const;

const leakageToSchema = z.strictObject({
  zone: reference('Buffer zone.'),
  share: quantity('ratio', 'Share of the room’s leaks that open to it.', { least: '0 %', most: '100 %' }),
});

export const roomSchema = z.strictObject({
  id: id('Name that the rest of the file uses.'),
  name: text('As the report should call it.').optional(),
  use: z.enum(roomUses).describe('People and appliances go to living rooms and kitchens.').optional(),
  storey: count('1 is the ground floor, 0 a basement.', -1, 6).optional(),
  outline: z.array(pointField('A corner.')).min(3).describe('Corners of the floor, in order.').optional(),
  corner: pointField('South-west corner of a room given by its size.').optional(),
  size: sizeField('Width (east-west) x depth (north-south), instead of an outline.').optional(),
  floorArea: quantity('area', 'Floor area, when there is no outline.', {
    least: '2 ft²',
    most: '10000 ft²',
  }).optional(),
  height: quantity('length', 'Height of the ceiling.', { least: '5 ft', most: '40 ft' }).optional(),
  leakageShare: quantity('ratio', 'Share of the house’s leakage that is in this room.', {
    least: '0 %',
    most: '100 %',
  }).optional(),
  leakageTo: z.array(leakageToSchema).describe('Where its leaks go when not straight outdoors.').optional(),
  sensibleGain: quantity('power', 'Heat of people and appliances.', {
    least: '0 W',
    most: '20 kW',
  }).optional(),
  latentGain: quantity('power', 'Moisture of people and appliances, as heat.', {
    least: '0 W',
    most: '10 kW',
  }).optional(),
  airflow: z
    .strictObject({
      heating: quantity('airflow', 'Design airflow in heating.', {
        least: '0 cfm',
        most: '5000 cfm',
      }).optional(),
      cooling: quantity('airflow', 'Design airflow in cooling.', {
        least: '0 cfm',
        most: '5000 cfm',
      }).optional(),
    })
    .describe('Design airflow; from the load when absent.')
    .optional(),
  surfaces: z
    .array(surfaceSchema)
    .describe('What separates it from outdoors, ground, zones and rooms.')
    .optional(),
});

const zoneKinds = ['attic', 'crawlspace', 'basement', 'garage', 'between floors', 'chase'] as const;

export const zoneSchema = z.strictObject({
  id: id('Name that the rest of the file uses.'),
  name: text('As the report should call it.').optional(),
  kind: z.enum(zoneKinds),
  storey: count('Storey it lies on.', -1, 7).optional(),
  vented: flag('Open to outdoors on purpose.').optional(),
  insideEnvelope: flag('Inside the insulation: its ducts count as inside.').optional(),
  outline: z.array(pointField('A corner.')).min(3).describe('Corners, in order.').optional(),
  floorArea: quantity('area', 'Floor area.', { least: '2 ft²', most: '20000 ft²' }).optional(),
  volume: quantity('volume', 'Volume; floor area times a usual height when absent.', {
    least: '1 ft³',
    most: '500000 ft³',
  }).optional(),
  airChangeHeating: quantity('airChange', 'Natural air change on the heating design day.', {
    least: '0 per hour',
    most: '60 per hour',
  }).optional(),
  airChangeCooling: quantity('airChange', 'Natural air change on the cooling design day.', {
    least: '0 per hour',
    most: '60 per hour',
  }).optional(),
  ventArea: quantity('opening', 'Net free area of its vents.', {
    least: '0.1 in²',
    most: '50000 in²',
  }).optional(),
  surfaces: z
    .array(surfaceSchema)
    .describe('Roof, walls, ground; usual ones are filled in when absent.')
    .optional(),
});

const betweenSchema = z.array(reference('Room or zone.')).length(2).describe('The two spaces it joins.');

export const doorSchema = z.strictObject({
  id: id('Name.'),
  between: betweenSchema,
  open: flag('Standing open.').optional(),
  opening: flag('An opening without a leaf.').optional(),
  size: sizeField('Width x height of the leaf or opening.').optional(),
  undercut: quantity('size', 'Gap under the leaf.', { least: '0 in', most: '6 in' }).optional(),
  shutArea: quantity('opening', 'All gaps when shut, instead of the undercut.', {
    least: '0.1 in²',
    most: '500 in²',
  }).optional(),
  spot: spotField,
});

export const transferSchema = z.strictObject({
  id: id('Name.'),
  kind: z.enum(['transfer grille', 'jump duct']),
  between: betweenSchema,
  spot: spotField,
  face: faceField('Face of the grille.').optional(),
  diameter: quantity('size', 'Diameter of a jump duct.', { least: '2 in', most: '30 in' }).optional(),
  freeArea: quantity('opening', 'Free area, instead of face or diameter.', {
    least: '1 in²',
    most: '2000 in²',
  }).optional(),
  lossCoefficient: quantity('number', 'Loss on the free area.', { least: '0.5', most: '20' }).optional(),
});

export const ventilatorSchema = z.strictObject({
  id: id('Name.'),
  kind: z.enum(['exhaust', 'supply', 'balanced']),
  room: reference('Room it serves.').optional(),
  returnPart: reference('Return part it is tied to, instead of a room.').optional(),
  flow: quantity('airflow', 'Airflow while it runs.', { least: '0 cfm', most: '3000 cfm' }),
  sensibleRecovery: quantity('ratio', 'Sensible effectiveness.', { least: '0 %', most: '100 %' }).optional(),
  latentRecovery: quantity('ratio', 'Latent effectiveness.', { least: '0 %', most: '100 %' }).optional(),
  running: flag('Runs in the design hour.').optional(),
});

export const knownSchema = z.enum(howKnownWords);
