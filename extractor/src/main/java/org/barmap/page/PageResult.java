package org.barmap.page;

import java.util.List;
import java.util.stream.Stream;
import org.barmap.map.Finding;

/** What became of one page of a file. */
public sealed interface PageResult {

  /** Returns the file name. */
  String source();

  /** Returns the findings about it; may be empty. */
  List<Finding> findings();

  /** Returns the same with a further finding. */
  PageResult and(Finding finding);

  /**
   * A page to read; whoever gets it closes its image.
   *
   * @param page the image
   * @param findings what is wrong with it though it could be opened, for instance that it is
   *     blurred
   */
  record Loaded(PageImage page, List<Finding> findings) implements PageResult {

    /** Takes a defensive copy. */
    public Loaded {
      findings = List.copyOf(findings);
    }

    @Override
    public String source() {
      return page.source();
    }

    @Override
    public Loaded and(Finding finding) {
      return new Loaded(page, Stream.concat(Stream.of(finding), findings.stream()).toList());
    }
  }

  /**
   * A file or page that can't be read.
   *
   * @param source file name
   * @param finding what is wrong and what to do
   */
  record Failed(String source, Finding finding) implements PageResult {
    @Override
    public List<Finding> findings() {
      return List.of(finding);
    }

    @Override
    public Failed and(Finding other) {
      return this; // what can't be read at all needs no further reason
    }
  }
}
