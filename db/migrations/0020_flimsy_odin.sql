CREATE TABLE `keeping_rules` (
	`id` integer PRIMARY KEY NOT NULL,
	`remind_after_months` integer NOT NULL,
	CONSTRAINT "keeping_rules_one_row" CHECK("keeping_rules"."id" = 1)
);
