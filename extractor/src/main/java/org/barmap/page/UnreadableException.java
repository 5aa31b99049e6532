package org.barmap.page;

import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;

/** Why a file can't be read; turned into a finding before it leaves this package. */
final class UnreadableException extends Exception {
  private static final long serialVersionUID = 1L;

  private final String code;
  private final String text;

  /** Takes a short stable code and one sentence: what is wrong and what to do. */
  UnreadableException(String code, String text) {
    super(text);
    this.code = code;
    this.text = text;
  }

  Finding finding(String source) {
    return Finding.ofPage(Severity.ERROR, Stage.FILE, 0, code, source + ": " + text);
  }
}
