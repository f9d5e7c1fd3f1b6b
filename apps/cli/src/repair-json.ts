import type { PlannedSet, RepairPlan } from '@airledger/job';

/** A plan as JSON: SI, money in the currency that it names, keys with their unit. */
export const repairJson = (plan: RepairPlan) => ({
  state: plan.state,
  goal: plan.goal,
  met: plan.met,
  misses: plan.misses,
  prices: plan.prices,
  terms: plan.terms,
  evaluations: plan.evaluations,
  before: standing(plan, plan.before),
  plan: set(plan, plan.chosen),
  work: plan.work.map(({ candidate, value, byValue }) => ({
    id: candidate.id,
    name: candidate.name,
    phase: candidate.repair.phase,
    where: candidate.where,
    how: candidate.repair.how,
    quantity: candidate.quantity,
    unit: candidate.repair.unit,
    hours: candidate.hours,
    materials: candidate.materials,
    cost: candidate.cost,
    life_years: candidate.repair.life_years,
    cautions: candidate.repair.cautions,
    source: candidate.repair.source,
    byValue,
    value,
  })),
  test: plan.test,
  valueCurve: plan.curve.map((one) => set(plan, one)),
  runnersUp: plan.runnersUp.map((one) => ({ ...set(plan, one), adds: one.adds, lacks: one.lacks })),
  steadiness: plan.steadiness,
  money: plan.money,
  candidates: plan.candidates.map(({ id, name, cost, excludes }) => ({ id, name, cost, excludes })),
});

const set = (plan: RepairPlan, { repairs, cost, worth, objective, standing: after }: PlannedSet) => ({
  repairs,
  cost,
  worth,
  objective,
  standing: standing(plan, after),
});

const standing = ({ rooms }: RepairPlan, { drift_K, leakShare, failed, year }: RepairPlan['before']) => ({
  rooms: rooms.map(({ id, name }, at) => ({
    room: id,
    name,
    ...Object.fromEntries(Object.entries(drift_K).map(([mode, all]) => [`${mode}Drift_K`, all[at]])),
  })),
  leakShare: leakShare.map(([supply, returned]) => ({ supply, return: returned })),
  failed,
  year,
});
