package towerledger;

import com.zaxxer.hikari.HikariDataSource;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.stereotype.Component;

/**
 * Settings that other databases do not know and would refuse. The driver sends a batch of inserts
 * as statements of many rows: a row then costs a quarter of what it costs alone. And fifty rows of
 * a page are looked up by their keys: with the usual price of a page read at random, that of a
 * turning disk, the planner reads every system, site and customer instead.
 */
@Component
class PoolOnPostgres implements BeanPostProcessor {

  @Override
  public Object postProcessBeforeInitialization(Object bean, String name) {
    if (bean instanceof HikariDataSource pool
        && pool.getJdbcUrl() != null
        && pool.getJdbcUrl().startsWith("jdbc:postgresql:")) {
      pool.addDataSourceProperty("reWriteBatchedInserts", "true");
      if (pool.getConnectionInitSql() == null) {
        pool.setConnectionInitSql("SET random_page_cost = 1.1");
      }
    }
    return bean;
  }
}
