package org.barmap.web.answer;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import org.barmap.library.Library;
import org.barmap.library.Replies;
import org.jspecify.annotations.Nullable;

/**
 * A real library that keeps no reply after its edit: as one whose program is killed just then,
 * which can't be had at will on every route.
 */
final class ForgetfulLibrary {

  private ForgetfulLibrary() {}

  static Library of(Library real) {
    return Library.class.cast(before(Library.class, real));
  }

  private static Object before(Class<?> port, Object real) {
    return Proxy.newProxyInstance(
        port.getClassLoader(),
        new Class<?>[] {port},
        (p, method, given) -> call(real, method, given));
  }

  private static @Nullable Object call(Object real, Method method, Object[] given)
      throws Throwable {
    if (method.getDeclaringClass() == Replies.class && method.getName().equals("keep")) {
      return null;
    }
    try {
      Object found = method.invoke(real, given);
      return found instanceof Replies ? before(Replies.class, found) : found;
    } catch (InvocationTargetException e) {
      throw e.getCause() == null ? e : e.getCause();
    }
  }
}
