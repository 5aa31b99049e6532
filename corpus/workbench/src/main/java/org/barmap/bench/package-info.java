/**
 * What is measured on this machine, and the command {@code barmap bench} that prints it.
 *
 * <p>Pure functions are JMH benchmarks in a process of their own; reading a page and its floor take
 * turns in one process, and what ends on disk is timed here too ({@link org.barmap.bench.Click}).
 *
 * <p>How long a click takes to the redrawn desk is measured in Chromium, where one is installed
 * ({@link org.barmap.bench.DeskClicks}); how long a page takes from a change to its turns is
 * printed by {@code PlanBrowserTest}, and kept in {@code service/target/change-to-turns.json}.
 */
@NullMarked
package org.barmap.bench;

import org.jspecify.annotations.NullMarked;
