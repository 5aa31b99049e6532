/**
 * What a change can do to a show, as data: {@link org.barmap.plan.change.effect.Effects} has a
 * component for everything the planner can act on. Kinds of change fill it in; the planner reads it
 * and never asks for the kind.
 */
@NullMarked
package org.barmap.plan.change.effect;

import org.jspecify.annotations.NullMarked;
