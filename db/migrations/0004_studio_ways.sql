-- How a studio's pages write masses and days, and which form of the trade's words they use.
alter table studio
  add column mass_units text default 'metric' not null,
  add column date_order text default 'day_month_year' not null,
  add column trade_words text default 'UK' not null;
--> statement-breakpoint
alter table studio
  add constraint studio_mass_units_are_known check (mass_units in ('metric', 'pounds_ounces')),
  add constraint studio_date_order_is_known check (
    date_order in ('day_month_year', 'month_day_year', 'year_month_day')),
  add constraint studio_trade_words_are_known check (trade_words in ('UK', 'US'));
--> statement-breakpoint
-- What is recorded does not depend on them, so a studio may change its mind.
grant update (mass_units, date_order, trade_words) on studio to slakebook_app;
