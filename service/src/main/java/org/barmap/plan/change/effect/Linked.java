package org.barmap.plan.change.effect;

import java.util.Optional;
import org.barmap.plan.change.term.Link;

/**
 * How the next number follows a number.
 *
 * @param how at once, on cue, after the applause
 * @param to label of the number that follows, where it was named
 * @param seconds how long it takes until then, where that was said
 * @param cue what one waits for, in words
 */
public record Linked(
    Link how, Optional<String> to, Optional<Double> seconds, Optional<String> cue) {}
