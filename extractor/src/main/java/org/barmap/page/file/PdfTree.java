package org.barmap.page.file;

import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** Looks at the page tree of a PDF before PDFBox does, which goes down it by calling itself. */
final class PdfTree {

  private static final Limits MOST = Limits.STANDARD;

  private PdfTree() {}

  private record Node(COSDictionary node, int level) {}

  /** Fails when the tree under a catalog is too deep or has too many nodes. */
  static void check(COSDictionary catalog) throws UnreadableException {
    Set<COSDictionary> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    Deque<Node> left = new ArrayDeque<>();
    if (catalog.getDictionaryObject(COSName.PAGES) instanceof COSDictionary root) {
      left.push(new Node(root, 1));
    }
    while (!left.isEmpty()) {
      Node at = left.pop();
      if (!seen.add(at.node)) {
        continue;
      }
      if (at.level > MOST.levels() || seen.size() > MOST.nodes()) {
        throw new UnreadableException(
            "too-deep", "the pages of the PDF are nested too deep to be read; export it again.");
      }
      if (at.node.getDictionaryObject(COSName.KIDS) instanceof COSArray kids) {
        for (int i = 0; i < kids.size() && left.size() <= MOST.nodes(); i++) {
          COSBase kid = kids.getObject(i);
          if (kid instanceof COSDictionary node) {
            left.push(new Node(node, at.level + 1));
          }
        }
      }
    }
  }
}
