import curves from '../../data/equipment-curves.json' with { type: 'json' };

/** Quadratic in two temperatures, °F: c0 + c1·x + c2·x² + c3·y + c4·y² + c5·x·y. */
export const surface = (c: readonly number[], x: number, y: number): number =>
  c[0]! + x * (c[1]! + c[2]! * x) + y * (c[3]! + c[4]! * y) + c[5]! * x * y;

/** Quadratic in the ratio of mass flows. */
export const byFlow = (c: readonly number[], ratio: number): number =>
  c[0]! + ratio * (c[1]! + c[2]! * ratio);

const fahrenheit = (celsius: number): number => celsius * 1.8 + 32;
const bounded = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** The curves turn down past this flow; no coil loses capacity with more air. */
const mostFlowRatio = 1.5;

// The published curves miss 1 by up to 1 % at their own rating point, so each is divided by its value there.
const ratedCoolingCapacity =
  surface(curves.coolingCapacity, 67, 95) * byFlow(curves.coolingCapacityByFlow, 1);
const ratedCoolingInput = surface(curves.coolingInput, 67, 95) * byFlow(curves.coolingInputByFlow, 1);
const ratedHeatingCapacity =
  surface(curves.heatingCapacity, 70, 47) * byFlow(curves.heatingCapacityByFlow, 1);
const ratedHeatingInput = surface(curves.heatingInput, 70, 47) * byFlow(curves.heatingInputByFlow, 1);

// Entering wet bulb 57…72 °F and outdoors 75…125 °F are the fitted range. Below its lowest point in wet bulb
// the fitted surface would rise again, which no coil does.
const coolingPoint = (enteringWetBulb_C: number, outdoor_C: number): readonly [number, number] => {
  const outdoor_F = bounded(fahrenheit(outdoor_C), 75, 125);
  const c = curves.coolingCapacity;
  const lowest_F = -(c[1]! + c[5]! * outdoor_F) / (2 * c[2]!);
  return [bounded(fahrenheit(enteringWetBulb_C), Math.max(57, lowest_F), 72), outdoor_F];
};

/**
 * Total cooling capacity of a single-speed unit over its rated one (80/67 °F entering, 95 °F outdoors),
 * for entering wet bulb and outdoor dry bulb in °C (held to 14–22 and 24–52 °C) and mass-flow ratio up to 1.5.
 * NREL/TP-5500-56354, normalised at the rating point.
 */
export const coolingCapacityRatio = (
  enteringWetBulb_C: number,
  outdoor_C: number,
  flowRatio: number,
): number => {
  const [wet, dry] = coolingPoint(enteringWetBulb_C, outdoor_C);
  const flow = Math.min(flowRatio, mostFlowRatio);
  return (
    (surface(curves.coolingCapacity, wet, dry) * byFlow(curves.coolingCapacityByFlow, flow)) /
    ratedCoolingCapacity
  );
};

/** Electric input per output (1/COP) in cooling over its rated value; same arguments, ranges and source. */
export const coolingInputRatio = (
  enteringWetBulb_C: number,
  outdoor_C: number,
  flowRatio: number,
): number => {
  const [wet, dry] = coolingPoint(enteringWetBulb_C, outdoor_C);
  const flow = Math.min(flowRatio, mostFlowRatio);
  return (
    (surface(curves.coolingInput, wet, dry) * byFlow(curves.coolingInputByFlow, flow)) / ratedCoolingInput
  );
};

// Above 65 °F outdoors nothing was fitted; below 0 °F the surface is carried on, since holding it would flatter.
const heatingPoint = (entering_C: number, outdoor_C: number): readonly [number, number] => [
  bounded(fahrenheit(entering_C), 50, 80),
  bounded(fahrenheit(outdoor_C), -40, 65),
];

/**
 * Heat-pump heating capacity over its rated one (70 °F entering, 47 °F outdoors), for entering and outdoor dry
 * bulb in °C and mass-flow ratio up to 1.5. Fitted from −18 to 18 °C outdoors. NREL/TP-5500-56354, normalised.
 */
export const heatingCapacityRatio = (entering_C: number, outdoor_C: number, flowRatio: number): number => {
  const [indoor, outdoor] = heatingPoint(entering_C, outdoor_C);
  const flow = Math.min(flowRatio, 1.4);
  return (
    (surface(curves.heatingCapacity, indoor, outdoor) * byFlow(curves.heatingCapacityByFlow, flow)) /
    ratedHeatingCapacity
  );
};

/** Electric input per output (1/COP) in heating over its rated value; same arguments, ranges and source. */
export const heatingInputRatio = (entering_C: number, outdoor_C: number, flowRatio: number): number => {
  const [indoor, outdoor] = heatingPoint(entering_C, outdoor_C);
  const flow = Math.min(flowRatio, 1.4);
  return (
    (surface(curves.heatingInput, indoor, outdoor) * byFlow(curves.heatingInputByFlow, flow)) /
    ratedHeatingInput
  );
};
