CREATE TABLE `machine_labels` (
	`code` text PRIMARY KEY NOT NULL,
	`machine_tag` text NOT NULL,
	`made_at` text NOT NULL,
	`ended_at` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `machine_labels_by_machine` ON `machine_labels` (`machine_tag`);