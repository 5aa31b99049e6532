package org.barmap.sign.strip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.Test;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.imgproc.Imgproc;

/** Pieces of ink against OpenCV's connected components, on random images of every density. */
class InkPiecesTest {

  @Test
  void areThoseOfAnIndependentCount() {
    Random random = new Random(5);
    for (int round = 0; round < 200; round++) {
      int width = 1 + random.nextInt(60);
      int height = 1 + random.nextInt(40);
      double density = random.nextDouble();
      byte[] gray = new byte[width * height];
      for (int i = 0; i < gray.length; i++) {
        gray[i] = (byte) (random.nextDouble() < density ? 100 : 200);
      }
      assertThat(InkPieces.of(gray, width, 140))
          .containsExactlyInAnyOrderElementsOf(counted(gray, width, height));
    }
  }

  private static List<InkPiece> counted(byte[] gray, int width, int height) {
    List<InkPiece> pieces = new ArrayList<>();
    try (Mats scope = new Mats()) {
      Mat mask = scope.keep(new Mat(height, width, CvType.CV_8U));
      mask.put(0, 0, gray);
      Imgproc.threshold(mask, mask, 139, 1, Imgproc.THRESH_BINARY_INV);
      Mat stats = scope.mat();
      int n = Imgproc.connectedComponentsWithStats(mask, scope.mat(), stats, scope.mat(), 8);
      int[] row = new int[5];
      for (int i = 1; i < n; i++) {
        stats.get(i, 0, row);
        pieces.add(new InkPiece(row[0], row[1], row[2], row[3], row[4]));
      }
    }
    return pieces;
  }
}
