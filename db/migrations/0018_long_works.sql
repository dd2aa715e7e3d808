CREATE TABLE `long_works` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`kind` text NOT NULL,
	`name` text,
	`asked_at` text NOT NULL,
	`state` text NOT NULL,
	`ask` text NOT NULL,
	`inputs` text,
	`ended_at` text,
	`result` text
);
--> statement-breakpoint
CREATE INDEX `long_works_by_kind` ON `long_works` (`kind`,`state`);