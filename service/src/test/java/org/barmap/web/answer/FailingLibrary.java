package org.barmap.web.answer;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.util.Optional;
import java.util.function.Supplier;
import org.barmap.library.Library;

/**
 * A real library whose every call fails as long as that is wanted, in the way that is wanted. It
 * stands for what can't be had at will on every route: a line that is cut, a disk that is full, a
 * mistake of ours.
 */
final class FailingLibrary {

  private final Library whole;

  private volatile Optional<Supplier<RuntimeException>> failure = Optional.empty();

  FailingLibrary(Library real) {
    whole = Library.class.cast(before(Library.class, real));
  }

  /** Returns the library that is given to the service. */
  Library library() {
    return whole;
  }

  void fail(Supplier<RuntimeException> how) {
    failure = Optional.of(how);
  }

  void mend() {
    failure = Optional.empty();
  }

  private Object before(Class<?> port, Object real) {
    return Proxy.newProxyInstance(
        port.getClassLoader(),
        new Class<?>[] {port},
        (p, method, given) -> call(real, method, given));
  }

  private Object call(Object real, Method method, Object[] given) throws Throwable {
    boolean port = isPort(method.getReturnType());
    if (failure.isPresent() && !port) {
      throw failure.get().get();
    }
    try {
      Object found = method.invoke(real, given);
      return port ? before(method.getReturnType(), found) : found;
    } catch (InvocationTargetException e) {
      throw e.getCause() == null ? e : e.getCause();
    }
  }

  /** Tells whether a call only leads on to another part of the library. */
  private static boolean isPort(Class<?> type) {
    return type.isInterface() && type.getPackageName().startsWith(Library.class.getPackageName());
  }
}
