package org.barmap.web.access;

import java.util.Optional;

/** Somebody who came with a key that is good. */
public sealed interface Who {

  /** Returns what the key is called. */
  String name();

  /** Returns what the key is for. */
  Role role();

  /**
   * Tells whether somebody may ask for something.
   *
   * @param route as it was added to the server, "/api/books/{b}/map"
   * @param book the one the request names, as it was sent and not decoded: a book written in an
   *     unusual way is none
   */
  boolean may(String method, String route, Optional<String> book);

  /** Returns where a visit begins. */
  String begin();

  /** Whose data folder it is. */
  record Owner() implements Who {
    @Override
    public String name() {
      return "you";
    }

    @Override
    public Role role() {
      return Role.OWNER;
    }

    @Override
    public boolean may(String method, String route, Optional<String> book) {
      return true;
    }

    @Override
    public String begin() {
      return "/";
    }
  }

  /** What watches over the service: it is told figures, and nothing of any book. */
  record Meter() implements Who {
    @Override
    public String name() {
      return "measures";
    }

    @Override
    public Role role() {
      return Role.PHONE;
    }

    @Override
    public boolean may(String method, String route, Optional<String> book) {
      return method.equals("GET") && route.equals("/metrics");
    }

    @Override
    public String begin() {
      return "/metrics";
    }
  }

  /** Somebody who was let in to one book. */
  record Invited(Invite invite) implements Who {
    @Override
    public String name() {
      return invite.name();
    }

    @Override
    public Role role() {
      return invite.role();
    }

    @Override
    public boolean may(String method, String route, Optional<String> book) {
      boolean its = book.map(invite.book()::equals).orElse(!route.startsWith("/api/"));
      return its && invite.role().may(method, route);
    }

    @Override
    public String begin() {
      return invite.role().page() + "?b=" + invite.book();
    }
  }
}
