package org.barmap.web.api;

/** Everything that can go wrong with a request; the constant's name is the {@code code}. */
public enum ApiError {
  /** No such book. */
  NO_BOOK(404, "There is no such book"),
  /** No such page. */
  NO_PAGE(404, "There is no such page"),
  /** No such bar. */
  NO_BAR(404, "There is no such bar"),
  /** No such edition. */
  NO_EDITION(404, "There is no such edition"),
  /** No such web hook. */
  NO_HOOK(404, "There is no such web hook"),
  /** Nothing can be sent to this address. */
  BAD_TARGET(422, "Nothing can be sent there"),
  /** No such change. */
  NO_CHANGE(404, "There is no such change"),
  /** No such thing at all. */
  NOT_FOUND(404, "There is nothing here"),
  /** The address is right, the method is not. */
  WRONG_METHOD(405, "That can't be done here"),
  /** The body is no JSON, or lacks what is needed. */
  BAD_REQUEST(400, "The request can't be understood"),
  /** The correction or change does not fit the book. */
  REFUSED(422, "That does not fit the book"),
  /** A score has several parts, and nothing says which. */
  WHICH_PART(422, "The score has several parts; say which"),
  /** Someone else changed it first. */
  STALE(412, "Someone changed it meanwhile"),
  /** The key of an edit belongs to another one. */
  KEY_USED(422, "This key belongs to another edit"),
  /** No If-Match header. */
  NEEDS_REVISION(428, "Say which revision you saw, in an If-Match header"),
  /** The upload holds no file. */
  NO_FILES(400, "There is no file in the upload"),
  /** The upload or body is over the limit. */
  TOO_LARGE(413, "That is too large"),
  /** The book is over its limit of pages. */
  TOO_MANY_PAGES(413, "A book has at most 600 pages"),
  /** The request comes from another site. */
  FOREIGN(403, "Only pages of this service may ask"),
  /** It came without a key, or with one that opens nothing. */
  NEEDS_KEY(401, "This barmap opens with a key only"),
  /** The key was good once. */
  ENDED(401, "This link has ended"),
  /** The key is right, and not for this. */
  NOT_YOURS(403, "That is for somebody else to do"),
  /** Too many wrong keys. */
  SLOW_DOWN(429, "Wait a little"),
  /** The page has no picture. */
  NO_PICTURE(404, "The page has no picture"),
  /** The disk is full, or the data folder went away. */
  STORAGE(507, "It could not be kept on disk; make room and try again"),
  /** The database can't be reached, or answers too late. */
  AWAY(503, "It can't be had just now; try again in a moment"),
  /** A mistake of ours; the log has it. */
  INTERNAL(500, "Something went wrong in the program; nothing was changed");

  private final int status;
  private final String title;

  ApiError(int status, String title) {
    this.status = status;
    this.title = title;
  }

  /** Returns the HTTP status. */
  public int status() {
    return status;
  }

  /** Returns the plain sentence. */
  public String title() {
    return title;
  }
}
