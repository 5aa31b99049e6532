package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.web.contract.ApiDescription;
import org.junit.jupiter.api.Test;

/** The description of the service names the routes there are, all of them and no others. */
class DescribedRoutesTest extends RunningServer {

  /** What browsers load to show the pages. */
  private static final Pattern PAGES = Pattern.compile("GET (/|.*\\.html|/sw\\.js|/site\\.json)");

  @Test
  void everyRouteIsDescribedAndNoOther() {
    Set<String> there = new TreeSet<>(server.everyRoute());
    there.removeIf(route -> PAGES.matcher(route).matches());
    Set<String> described =
        ApiDescription.INSTANCE.operations().stream()
            .map(ApiDescription.Operation::route)
            .collect(Collectors.toCollection(TreeSet::new));
    assertThat(described).hasSizeGreaterThan(80).containsExactlyElementsOf(there);
  }
}
