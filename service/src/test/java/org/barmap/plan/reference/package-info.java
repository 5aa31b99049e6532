/**
 * A reference for the order of play and for what is in force at each bar: a walker that reads a
 * page as a person does, by the trade's rules, and shares no code with the planner.
 *
 * <p>The comment at each rule names its source: a section of the project's notes on the trade
 * (trade.md), of its check values (oracles.md), of the formats (barmap-format.md, plan-format.md,
 * the schemas), "decided" for what was decided when the planner's work was set out, or "common
 * practice". Where none of them decides, it asks ({@link org.barmap.plan.reference.Questions}) and
 * walks every reading.
 */
package org.barmap.plan.reference;
