package org.barmap;

import com.sun.source.tree.AnnotationTree;
import com.sun.source.tree.ArrayAccessTree;
import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.LiteralTree;
import com.sun.source.tree.MemberSelectTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreeScanner;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.lang.model.element.Modifier;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.jspecify.annotations.Nullable;

/**
 * Numbers that stand in the middle of code: a number that decides something has a name, and where
 * it is a threshold it has it in its stage's record of settings.
 *
 * <p>Not counted: what stands in a type whose name ends with "Settings", in a {@code static final}
 * field, in an enum's constants or in an annotation; 0, 0.5, 1 and 2 of either sign, which are
 * neighbours, pairs and halves; 255, white and the low byte; 8, 16 and 24 beside a shift;
 * subscripts of arrays and lists; what a caller allows: a file, or a number in a file.
 *
 * @param file where it stands, below the sources
 * @param line of the file, from 1
 * @param text as a decimal number
 */
record InlineNumbers(Path file, long line, String text) {

  private static final Set<Double> PLAIN = Set.of(0.0, 1.0, 2.0, 0.5, 255.0);
  private static final Set<Double> SHIFTS = Set.of(8.0, 16.0, 24.0);

  /** Finds the numbers in all sources below a folder. */
  static List<InlineNumbers> in(Path sources, Set<String> allowed) throws IOException {
    List<Path> files;
    try (Stream<Path> walk = Files.walk(sources)) {
      files = walk.filter(f -> f.toString().endsWith(".java")).sorted().toList();
    }
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    List<InlineNumbers> found = new ArrayList<>();
    try (StandardJavaFileManager manager =
        compiler.getStandardFileManager(null, Locale.ROOT, StandardCharsets.UTF_8)) {
      var task =
          (JavacTask)
              compiler.getTask(
                  null, manager, null, null, null, manager.getJavaFileObjectsFromPaths(files));
      var positions = com.sun.source.util.Trees.instance(task).getSourcePositions();
      for (CompilationUnitTree unit : task.parse()) {
        Path file = sources.relativize(Path.of(unit.getSourceFile().toUri()));
        new Finder() {
          @Override
          void number(LiteralTree literal, double value) {
            long line = unit.getLineMap().getLineNumber(positions.getStartPosition(unit, literal));
            InlineNumbers number =
                new InlineNumbers(file, line, String.valueOf(literal.getValue()));
            String name = String.valueOf(file.getFileName());
            if (!allowed.contains(name) && !allowed.contains(name + " " + number.text())) {
              found.add(number);
            }
          }
        }.scan(unit, null);
      }
    }
    return found;
  }

  /** Returns the folder below the sources, with dots: the package. */
  String room() {
    return String.valueOf(file.getParent()).replace(file.getFileSystem().getSeparator(), ".");
  }

  /** Tells whether it stands in a package or one below it. */
  boolean below(String name) {
    return room().equals(name) || room().startsWith(name + ".");
  }

  /** Says how many numbers each package has, and where they stand. */
  static String table(List<InlineNumbers> numbers) {
    Map<String, List<InlineNumbers>> rooms =
        numbers.stream()
            .collect(Collectors.groupingBy(InlineNumbers::room, TreeMap::new, Collectors.toList()));
    StringBuilder table = new StringBuilder();
    rooms.forEach(
        (room, in) -> {
          table.append(String.format(Locale.ROOT, "%n%4d %s", in.size(), room));
          for (InlineNumbers n : in) {
            table.append(
                String.format(
                    Locale.ROOT, "%n       %s:%d %s", n.file().getFileName(), n.line(), n.text()));
          }
        });
    return table.toString();
  }

  /** Walks what is counted. */
  private abstract static class Finder extends TreeScanner<@Nullable Void, @Nullable Void> {

    abstract void number(LiteralTree literal, double value);

    @Override
    public @Nullable Void visitClass(ClassTree type, @Nullable Void none) {
      if (type.getKind() == Tree.Kind.INTERFACE) {
        // its fields are constants
        type.getMembers().stream()
            .filter(m -> !(m instanceof VariableTree))
            .forEach(m -> scan(m, none));
        return null;
      }
      return type.getSimpleName().toString().endsWith("Settings")
          ? null
          : super.visitClass(type, none);
    }

    @Override
    public @Nullable Void visitVariable(VariableTree variable, @Nullable Void none) {
      Set<Modifier> flags = variable.getModifiers().getFlags();
      boolean constant = flags.contains(Modifier.STATIC) && flags.contains(Modifier.FINAL);
      return constant ? null : super.visitVariable(variable, none);
    }

    @Override
    public @Nullable Void visitAnnotation(AnnotationTree annotation, @Nullable Void none) {
      return null;
    }

    @Override
    public @Nullable Void visitArrayAccess(ArrayAccessTree access, @Nullable Void none) {
      scan(access.getExpression(), none);
      return access.getIndex() instanceof LiteralTree ? null : scan(access.getIndex(), none);
    }

    @Override
    public @Nullable Void visitMethodInvocation(MethodInvocationTree call, @Nullable Void none) {
      boolean subscript =
          call.getMethodSelect() instanceof MemberSelectTree select
              && select.getIdentifier().contentEquals("get")
              && call.getArguments().size() == 1
              && call.getArguments().get(0) instanceof LiteralTree;
      return subscript
          ? scan(call.getMethodSelect(), none)
          : super.visitMethodInvocation(call, none);
    }

    @Override
    public @Nullable Void visitBinary(com.sun.source.tree.BinaryTree binary, @Nullable Void none) {
      boolean shift =
          Set.of(Tree.Kind.LEFT_SHIFT, Tree.Kind.RIGHT_SHIFT, Tree.Kind.UNSIGNED_RIGHT_SHIFT)
              .contains(binary.getKind());
      scan(binary.getLeftOperand(), none);
      boolean whole =
          shift
              && binary.getRightOperand() instanceof LiteralTree by
              && by.getValue() instanceof Number n
              && SHIFTS.contains(n.doubleValue());
      return whole ? null : scan(binary.getRightOperand(), none);
    }

    @Override
    public @Nullable Void visitLiteral(LiteralTree literal, @Nullable Void none) {
      if (literal.getValue() instanceof Number number
          && !PLAIN.contains(Math.abs(number.doubleValue()))) {
        number(literal, number.doubleValue());
      }
      return null;
    }
  }
}
