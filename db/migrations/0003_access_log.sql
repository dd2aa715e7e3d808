CREATE TABLE `access_log` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`what` text NOT NULL,
	`by` text,
	`about` text,
	`place` text
);
--> statement-breakpoint
CREATE INDEX `access_log_by_time` ON `access_log` (`at`);--> statement-breakpoint
ALTER TABLE `api_tokens` ADD `people` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `sessions` ADD `proven_at` text;--> statement-breakpoint
CREATE TRIGGER `access_log_only_added` BEFORE UPDATE ON `access_log` BEGIN SELECT RAISE(ABORT, 'rows of the access log are never changed'); END;
