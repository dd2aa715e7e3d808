CREATE TABLE `width_steps` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`by` text,
	`was` real NOT NULL,
	`factor` real NOT NULL,
	`evidence` text NOT NULL,
	`taken_back_at` text
);
--> statement-breakpoint
CREATE TRIGGER `gain_width_steps_insert` AFTER INSERT ON `width_steps` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_width_steps_update` AFTER UPDATE ON `width_steps` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
--> statement-breakpoint
CREATE TRIGGER `gain_width_steps_delete` AFTER DELETE ON `width_steps` BEGIN UPDATE `gain_revisions` SET `changed` = `changed` + 1 WHERE `id` = 1; END;
