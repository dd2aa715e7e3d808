ALTER TABLE `customers` DROP COLUMN `wants_offers`;--> statement-breakpoint
-- A change of the shop's time zone keeps days the same days, so it may move the instant; nothing else of a row changes.
DROP TRIGGER `consents_only_added`;--> statement-breakpoint
CREATE TRIGGER `consents_only_added` BEFORE UPDATE OF `id`, `customer_id`, `kind`, `standing`, `source`, `wording`, `language` ON `consents` BEGIN SELECT RAISE(ABORT, 'consents are only added to'); END;
