CREATE TABLE `frame_log_pieces` (
	`log_id` integer NOT NULL,
	`position` integer NOT NULL,
	`bytes` blob NOT NULL,
	PRIMARY KEY(`log_id`, `position`),
	FOREIGN KEY (`log_id`) REFERENCES `frame_logs`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `frame_logs` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`name` text NOT NULL,
	`added_at` text NOT NULL,
	`size` integer,
	`sha256` text,
	`kept_bytes` integer,
	`choice` text
);
--> statement-breakpoint
CREATE INDEX `frame_logs_by_sha256` ON `frame_logs` (`sha256`);