CREATE TABLE `gain_revisions` (
	`id` integer PRIMARY KEY NOT NULL,
	`runs_added` integer NOT NULL,
	`changed` integer NOT NULL,
	CONSTRAINT "gain_revisions_one_row" CHECK("gain_revisions"."id" = 1)
);
--> statement-breakpoint
CREATE TABLE `gain_starts` (
	`id` integer PRIMARY KEY NOT NULL,
	`start` text NOT NULL,
	`runs` integer NOT NULL,
	`took_ms` integer NOT NULL,
	`at` text NOT NULL,
	CONSTRAINT "gain_starts_one_row" CHECK("gain_starts"."id" = 1)
);
--> statement-breakpoint
INSERT INTO `gain_revisions` (`id`, `runs_added`, `changed`) VALUES (1, 0, 0);
--> statement-breakpoint
CREATE TRIGGER `gain_run_added` AFTER INSERT ON `runs` WHEN NEW.`taken_out_at` IS NULL BEGIN UPDATE `gain_revisions` SET `runs_added` = `runs_added` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_run_changed` AFTER UPDATE ON `runs` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_run_gone` AFTER DELETE ON `runs` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_titles_insert` AFTER INSERT ON `titles` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_titles_update` AFTER UPDATE ON `titles` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_titles_delete` AFTER DELETE ON `titles` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_title_versions_insert` AFTER INSERT ON `title_versions` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_title_versions_update` AFTER UPDATE ON `title_versions` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_title_versions_delete` AFTER DELETE ON `title_versions` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_settings_insert` AFTER INSERT ON `settings` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_settings_update` AFTER UPDATE ON `settings` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_settings_delete` AFTER DELETE ON `settings` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_parts_insert` AFTER INSERT ON `parts` WHEN NEW.`kind` IN ('processor', 'card') BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_parts_update` AFTER UPDATE ON `parts` WHEN (NEW.`kind` IN ('processor', 'card') OR OLD.`kind` IN ('processor', 'card')) AND (NEW.`spec` IS NOT OLD.`spec` OR NEW.`kind` IS NOT OLD.`kind`) BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_parts_delete` AFTER DELETE ON `parts` WHEN OLD.`kind` IN ('processor', 'card') BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_shops_insert` AFTER INSERT ON `shops` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_shops_update` AFTER UPDATE ON `shops` WHEN NEW.`run_window_days` IS NOT OLD.`run_window_days` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
