/** 97.5 % points of Student's t for 1 to 30 degrees of freedom (standard table); 1.96 beyond. */
const table = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131,
  2.12, 2.11, 2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
];

/** 97.5 % point of the normal distribution. */
export const normal975 = 1.96;

/** 97.5 % point of Student's t for whole degrees of freedom of 1 or more. */
export const studentT975 = (freedom: number): number => table[freedom - 1] ?? normal975;
