package org.barmap.page.file;

import java.util.OptionalInt;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;

/** Why a file can't be read; turned into a finding before it leaves this package. */
public final class UnreadableException extends Exception {
  private static final long serialVersionUID = 1L;

  private final String code;
  private final String text;
  private final OptionalInt pages;

  /** Takes a short stable code and one sentence: what is wrong and what to do. */
  public UnreadableException(String code, String text) {
    this(code, text, OptionalInt.empty());
  }

  /** Takes the number of pages of a file that has too many as well. */
  public UnreadableException(String code, String text, OptionalInt pages) {
    super(text);
    this.code = code;
    this.text = text;
    this.pages = pages;
  }

  /** Returns the number of pages of a file that has too many. */
  public OptionalInt pages() {
    return pages;
  }

  String code() {
    return code;
  }

  /** Returns a finding about a page that was read all the same. */
  public Finding doubt(String source) {
    return Finding.ofPage(Severity.DOUBT, Stage.FILE, 0, code, source + ": " + text);
  }

  /** Returns it as a finding about a file. */
  public Finding finding(String source) {
    return Finding.ofPage(Severity.ERROR, Stage.FILE, 0, code, source + ": " + text);
  }
}
