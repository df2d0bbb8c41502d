package towerledger.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.multipart;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.header;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.jsonPath;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mock.web.MockMultipartFile;
import org.springframework.test.web.servlet.MockMvc;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;
import towerledger.account.Viewer;

/** Imports and the export as programs ask for them. */
@ApplicationOnH2
class ImportHttpIT {

  private static final String IMPORTS = "/api/v1/imports";

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;
  @LocalServerPort int port;

  private static MockMultipartFile part(String name, String text) {
    return new MockMultipartFile("file", name, "text/csv", text.getBytes(StandardCharsets.UTF_8));
  }

  private void takeBook(String code) throws Exception {
    mvc.perform(
            multipart(IMPORTS)
                .file(part("customers.csv", "customer,name\n%s,Customer\n".formatted(code)))
                .file(
                    part(
                        "sites.csv",
                        "site,customer,name,time_zone\n%1$s-S,%1$s,Site,America/Chicago\n"
                            .formatted(code)))
                .file(
                    part(
                        "towers.csv",
                        "tower,site,name,nominal_tons\n%1$s-T,%1$s-S,Tower,300\n".formatted(code)))
                .file(
                    part(
                        "meters.csv",
                        "meter,system,role,unit\n%1$s-MU,%1$s-T,makeup,gal\n".formatted(code)))
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.files.length()").value(4))
        .andExpect(jsonPath("$.files[3].file").value("meters.csv"))
        .andExpect(jsonPath("$.files[3].added").value(1));
  }

  @Test
  void answersWithWhatBecameOfEachFileAndAReconciliation() throws Exception {
    takeBook("HTP");
    String csv = "meter,read_at,register\nHTP-MU,2025-03-01,5\nHTP-MU,2025-03-02,x\n";

    for (String expected : new String[] {"1", "0"}) {
      mvc.perform(
              post(IMPORTS + "?file=register_readings")
                  .contentType("text/csv")
                  .content(csv)
                  .with(signedIn.api(signedIn.office())))
          .andExpect(status().isOk())
          .andExpect(jsonPath("$.id").isNotEmpty())
          .andExpect(jsonPath("$.files[0].file").value("register_readings.csv"))
          .andExpect(jsonPath("$.files[0].rows").value(2))
          .andExpect(jsonPath("$.files[0].added").value(Integer.valueOf(expected)))
          .andExpect(jsonPath("$.files[0].changed").value(0))
          .andExpect(jsonPath("$.files[0].quarantined").value(1))
          .andExpect(jsonPath("$.files[0].reasons[0]").isNotEmpty())
          .andExpect(jsonPath("$.reconciliation.id").isNotEmpty())
          .andExpect(
              jsonPath("$.reconciliation.status").value(expected.equals("1") ? "queued" : "done"));
    }
  }

  /** A feed tells its own encoding, also where the header of the request tells it too. */
  @Test
  void takesAFeedInUtf16ByTheHeaderOrWithoutIt() throws Exception {
    takeBook("HTU");
    String feed =
        """
        <?xml version="1.0" encoding="UTF-16"?>
        <feed xmlns="http://www.w3.org/2005/Atom" xmlns:e="http://naesb.org/espi">
          <entry><link rel="self" href="/UsagePoint/1"/>
            <content><e:UsagePoint><e:ServiceCategory><e:kind>2</e:kind></e:ServiceCategory></e:UsagePoint></content></entry>
          <entry><link rel="self" href="/UsagePoint/1/MeterReading/1"/><link rel="related" href="/ReadingType/1"/>
            <content><e:MeterReading/></content></entry>
          <entry><link rel="self" href="/ReadingType/1"/>
            <content><e:ReadingType><e:uom>128</e:uom></e:ReadingType></content></entry>
          <entry><link rel="self" href="/UsagePoint/1/MeterReading/1/IntervalBlock/1"/>
            <content><e:IntervalBlock>
              <e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>1738281600</e:start></e:timePeriod><e:value>40</e:value></e:IntervalReading>
            </e:IntervalBlock></content></entry>
        </feed>
        """;

    for (String type : new String[] {"application/xml; charset=UTF-16", "application/xml"}) {
      mvc.perform(
              post(IMPORTS + "?file=HTU-MU.xml")
                  .contentType(type)
                  .content(feed.getBytes(StandardCharsets.UTF_16))
                  .with(signedIn.api(signedIn.office())))
          .andExpect(status().isOk())
          .andExpect(jsonPath("$.files[0].rows").value(1))
          .andExpect(jsonPath("$.files[0].quarantined").value(0));
    }
  }

  @Test
  void saysWhatIsWrongWithAnUploadItRefuses() throws Exception {
    var office = signedIn.api(signedIn.office());
    mvc.perform(
            post(IMPORTS + "?file=register_readings")
                .contentType("text/csv")
                .content("meter,read_at,register,colour\n")
                .with(office))
        .andExpect(status().isUnprocessableContent())
        .andExpect(header().string("Content-Type", "application/problem+json"))
        .andExpect(jsonPath("$.detail").value(org.hamcrest.Matchers.containsString("'colour'")));
    mvc.perform(
            post(IMPORTS + "?file=register_readings")
                .contentType("text/csv")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isBadRequest());
    mvc.perform(
            post(IMPORTS)
                .contentType("text/csv")
                .content("meter,read_at\n")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isBadRequest());
    mvc.perform(
            post(IMPORTS)
                .contentType("application/zip")
                .content("PK\u0003\u0004 but not for long")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isBadRequest());
    mvc.perform(
            post(IMPORTS)
                .contentType("application/json")
                .content("{}")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isUnsupportedMediaType());
  }

  @Test
  void takesReadingsOfTheirOwnMetersFromACustomerAndNothingElse() throws Exception {
    takeBook("HTC");
    takeBook("HTD");
    Viewer customer = signedIn.customer("reader@htc.example", "HTC", true);

    mvc.perform(
            post(IMPORTS + "?file=register_readings")
                .contentType("text/csv")
                .content("meter,read_at,register\nHTC-MU,2025-03-01,5\nHTD-MU,2025-03-01,5\n")
                .with(signedIn.api(customer)))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.files[0].added").value(1))
        .andExpect(jsonPath("$.files[0].quarantined").value(1))
        .andExpect(
            jsonPath("$.files[0].reasons[0]")
                .value(org.hamcrest.Matchers.containsString("meter 'HTD-MU' is not known")));
    mvc.perform(
            post(IMPORTS + "?file=customers")
                .contentType("text/csv")
                .content("customer,name\nHTC,Mine\n")
                .with(signedIn.api(customer)))
        .andExpect(status().isForbidden());
    mvc.perform(get("/api/v1/export.zip").with(signedIn.api(customer)))
        .andExpect(status().isForbidden());
  }

  @Test
  void takesNothingOfAnUploadThatBreaksOff() throws Exception {
    takeBook("HTB");
    String token = signedIn.token(signedIn.office());
    String rows = "meter,read_at,register\nHTB-MU,2025-03-01,5\nHTB-MU,2025-03-02,6\n";
    try (var socket = new Socket("localhost", port)) {
      OutputStream out = socket.getOutputStream();
      out.write(
          ("POST %s?file=register_readings HTTP/1.1\r\nHost: localhost\r\n"
                  + "Authorization: Bearer %s\r\nContent-Type: text/csv\r\n"
                  + "Content-Length: 100000\r\n\r\n%s")
              .formatted(IMPORTS, token, rows)
              .getBytes(StandardCharsets.US_ASCII));
      out.flush();
    }
    Thread.sleep(500);

    assertThat(
            jdbc.sql(
                    """
                    SELECT COUNT(*) FROM meter_register_reading r
                    JOIN site_meter m ON m.id = r.meter_id WHERE m.code = 'HTB-MU'""")
                .query(Long.class)
                .single())
        .isZero();
  }

  @Test
  void handsOutTheLedgerAsAZip() throws Exception {
    byte[] zip =
        mvc.perform(get("/api/v1/export.zip").with(signedIn.api(signedIn.office())))
            .andExpect(status().isOk())
            .andExpect(header().string("Content-Type", "application/zip"))
            .andReturn()
            .getResponse()
            .getContentAsByteArray();

    assertThat(new String(zip, 0, 2, StandardCharsets.US_ASCII)).isEqualTo("PK");
  }
}
