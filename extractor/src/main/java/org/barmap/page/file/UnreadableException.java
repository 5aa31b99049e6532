package org.barmap.page.file;

import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;

/** Why a file can't be read; turned into a finding before it leaves this package. */
public final class UnreadableException extends Exception {
  private static final long serialVersionUID = 1L;

  private final String code;
  private final String text;

  /** Takes a short stable code and one sentence: what is wrong and what to do. */
  public UnreadableException(String code, String text) {
    super(text);
    this.code = code;
    this.text = text;
  }

  /** Returns it as a finding about a file. */
  public Finding finding(String source) {
    return Finding.ofPage(Severity.ERROR, Stage.FILE, 0, code, source + ": " + text);
  }
}
