package towerledger.report.content;

import java.awt.Color;
import java.io.ByteArrayOutputStream;
import java.io.StringReader;
import org.apache.batik.transcoder.TranscoderException;
import org.apache.batik.transcoder.TranscoderInput;
import org.apache.batik.transcoder.TranscoderOutput;
import org.apache.batik.transcoder.image.PNGTranscoder;
import towerledger.drawing.BarSheet;
import towerledger.drawing.Tone;

/** Makes the picture of a drawing: mail readers show PNG and drop vectors. */
final class PictureFile {

  /** Dots a pixel: phones have two to three. */
  private static final float SHARPNESS = 2.5f;

  private PictureFile() {}

  /** The drawing as PNG on light ground. */
  static byte[] png(String svg) {
    var transcoder = new PNGTranscoder();
    transcoder.addTranscodingHint(PNGTranscoder.KEY_WIDTH, (float) BarSheet.WIDTH * SHARPNESS);
    transcoder.addTranscodingHint(
        PNGTranscoder.KEY_BACKGROUND_COLOR, Color.decode(Tone.FIELD.onLight()));
    transcoder.addTranscodingHint(PNGTranscoder.KEY_ALLOW_EXTERNAL_RESOURCES, false);
    transcoder.addTranscodingHint(PNGTranscoder.KEY_EXECUTE_ONLOAD, false);
    var out = new ByteArrayOutputStream(20_000);
    try {
      transcoder.transcode(new TranscoderInput(new StringReader(svg)), new TranscoderOutput(out));
      return out.toByteArray();
    } catch (TranscoderException e) {
      throw new IllegalStateException("the picture of the report could not be drawn", e);
    }
  }
}
