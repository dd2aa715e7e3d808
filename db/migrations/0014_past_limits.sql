CREATE TABLE `past_limits` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`key` text NOT NULL,
	`source` text NOT NULL,
	`value` text NOT NULL,
	`at` text,
	`note` text,
	`pinned` integer DEFAULT false NOT NULL,
	`ended_at` text NOT NULL,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `past_limits_by_machine` ON `past_limits` (`machine_tag`);--> statement-breakpoint
ALTER TABLE `sales` ADD `made_machine` integer DEFAULT true NOT NULL;