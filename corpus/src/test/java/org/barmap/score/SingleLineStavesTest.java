package org.barmap.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.page.PageImage;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.staff.Staff;
import org.barmap.staff.StaffFinder;
import org.junit.jupiter.api.Test;

/** On pages of five lines no ruled line, hairpin, bracket or beam is taken for a staff of one. */
class SingleLineStavesTest {

  private static final Path PAGES =
      Path.of(System.getProperty("barmap.home", "..")).resolve("corpus/pages");

  /** Not all of them, for time: the pages of all kinds, one in eight. */
  private static final int EVERY = 8;

  @Test
  void pagesOfFiveLinesHaveNone() throws IOException {
    List<Path> pictures;
    try (Stream<Path> files = Files.list(PAGES)) {
      pictures =
          files
              .filter(f -> f.toString().matches(".*\\.(png|jpg)"))
              .filter(f -> !f.getFileName().toString().startsWith("line1"))
              .sorted()
              .toList();
    }
    int staves = 0;
    for (int i = 0; i < pictures.size(); i += EVERY) {
      List<Staff> found = staves(pictures.get(i));
      staves += found.size();
      assertThat(found).as("%s", pictures.get(i)).noneMatch(Staff::hasFewLines);
    }
    assertThat(staves).isGreaterThan(100);
  }

  private static List<Staff> staves(Path picture) {
    List<Staff> found = new ArrayList<>();
    try (PageSource source = new PageSource(List.of(picture))) {
      while (source.hasNext()) {
        if (source.next() instanceof PageResult.Loaded loaded) {
          try (PageImage page = loaded.page()) {
            StaffFinder.find(page).forEach(s -> found.addAll(s.staves()));
          }
        }
      }
    }
    return found;
  }
}
